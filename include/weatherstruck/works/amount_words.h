#pragma once
// Amounts of work, of material and of money as they are spoken. For this floor only.
#include <optional>
#include <string>

#include "weatherstruck/base/money.h"
#include "weatherstruck/works/book.h"
#include "weatherstruck/works/word_list.h"

namespace weatherstruck::works {

/// "3 courses", "another course", "0.4 m3", "60 facing bricks", "60 %", "half of", "two thirds", "all"; its
/// words are used up, but for those that tell bricks apart. nullopt where there is none, or more than one.
[[nodiscard]] std::optional<Amount> take_amount(WordList& words);

struct MoneyRead {
  std::optional<base::Money> money;
  bool more_than_one = false;
  std::string fault;  ///< "34.505 is no amount of GBP"; empty: none
};
/// "34.50 pounds", "£80", "12 EUR"; a bare number too where `bare`, in `usual`.
[[nodiscard]] MoneyRead take_money(WordList& words, const base::Currency& usual, bool bare);

/// A number with the unit it was counted in: "4 bags", "0.3 m3", "60" (no unit).
struct Counted {
  double number = 0;
  std::string unit;  ///< "bag", "bulk bag", "pack", "kg", "m3", ...; empty: not said
};
[[nodiscard]] std::optional<Counted> take_counted(WordList& words);
/// In the unit of the materials table; nullopt where it is not sold or measured so.
[[nodiscard]] std::optional<double> in_table_unit(const Counted& counted, const std::string& material);

}  // namespace weatherstruck::works
