#pragma once
// Small words of this floor: names and sizes as a mason reads them.
#include <string>

#include "weatherstruck/base/quantity.h"
#include "weatherstruck/works/job.h"

namespace weatherstruck::works {

/// "potting-shelter" -> "potting shelter".
[[nodiscard]] std::string spoken(const Name& name);
/// "150 mm".
[[nodiscard]] std::string millimetres(base::Metres length);
/// "0.31 m3", two decimals.
[[nodiscard]] std::string cubic(base::CubicMetres volume);
/// "4.5 m2", one decimal, and "3.6 m", likewise.
[[nodiscard]] std::string square(base::SquareMetres area);
[[nodiscard]] std::string metres(base::Metres length);
/// "1 mix", "4 mixes": `word` with a plural `s` or `es`.
[[nodiscard]] std::string counted(long count, const std::string& word);

}  // namespace weatherstruck::works
