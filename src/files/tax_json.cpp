#include "tax_json.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "shared_sections.h"

namespace weatherstruck::files {
namespace {

using account::TaxCategory;

constexpr std::array<Word<TaxCategory>, 5> tax_words{{{"standard", TaxCategory::standard},
                                                      {"zero", TaxCategory::zero},
                                                      {"exempt", TaxCategory::exempt},
                                                      {"reverse-charge", TaxCategory::reverse_charge},
                                                      {"not-subject", TaxCategory::not_subject}}};

}  // namespace

int hundredths(double percent) {
  return static_cast<int>(std::lround(percent * 100));
}
Json percent_json(int in_hundredths) {
  return number(in_hundredths / 100.0);
}

account::Tax read_tax(ObjectReader from) {
  account::Tax tax;
  tax.category = from.word<TaxCategory>("category", tax_words);
  tax.rate = hundredths(from.number("percent", {0, 100, "%"}, 0.0));
  tax.name = from.text("name", 20, "VAT");
  tax.reason = from.text("reason", 200, "");
  from.finish();
  return tax;
}

Json tax_json(const account::Tax& tax) {
  const auto* const category = std::find_if(tax_words.begin(), tax_words.end(),
                                            [&](const auto& w) { return w.value == tax.category; });
  return {{"category", category->text},
          {"percent", percent_json(tax.rate)},
          {"name", tax.name},
          {"reason", tax.reason}};
}

}  // namespace weatherstruck::files
