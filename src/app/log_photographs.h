#pragma once
// The log command's photographs: which were given, with which entry they go, and what is said of them.
#include <string>
#include <vector>

#include "weatherstruck/app/command.h"
#include "weatherstruck/desk/book_desk.h"
#include "weatherstruck/desk/photograph_desk.h"

namespace weatherstruck::app {

/// Those of --photo, read and found to be pictures. @throws base::InputError
[[nodiscard]] std::vector<desk::GivenPhotograph> given_photographs(const Arguments& arguments);

/// The entry that they go with: the only one, or the only expense. @throws UsageError where neither is there
[[nodiscard]] const desk::Ready& goes_with(const std::vector<desk::Ready>& ready);

/// "receipt.jpg (JPEG, 120 kB), 3fa291c0; ..."
[[nodiscard]] std::string given_words(const std::vector<desk::GivenPhotograph>& given);

/// "1 photograph, 1 there already".
[[nodiscard]] std::string kept_words(const desk::KeptPhotographs& kept);

/// " (photograph 3fa291c0)", of an expense nothing: there it is the receipt. Empty where there is none.
[[nodiscard]] std::string photographs_of_line(const desk::PhotographsOf& photographs,
                                              const works::Entry& entry);

}  // namespace weatherstruck::app
