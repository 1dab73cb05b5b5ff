#include "weatherstruck/files/quote_json.h"

#include "weatherstruck/files/export.h"
#include "weatherstruck/files/invoice_json.h"

namespace weatherstruck::files {
namespace {

Json mine_json(const account::ForHimself& mine) {
  Json out = {{"hours", mine.hours.value()},        {"labour", mine.labour.text()},
              {"materials", mine.materials.text()}, {"put_on_materials", mine.put_on.text()},
              {"travel", mine.travel.text()},       {"reckoned", mine.reckoned.text()}};
  if (mine.agreed) out["agreed"] = mine.agreed->text();
  if (mine.an_hour) out["left_an_hour"] = mine.an_hour->text();
  return out;
}

}  // namespace

Json quote_json(const render::QuoteSheet& sheet, const std::optional<base::Money>& deposit,
                const account::Charges& open, const account::ForHimself* mine) {
  // Parties, lines and sums are written as those of an invoice; what only an invoice has is left out.
  const Json sums = invoice_to_json(sheet.sums);
  Json out = export_document("quotation");
  out["title"] = sheet.title;
  out["made"] = sums["issued"];
  out["good_until"] = sums["pay_by"];
  out["job"] = sums["title"];
  out["planned"] = sheet.planned;
  for (const char* member : {"seller", "buyer"})
    out[member] = sums[member];
  out["built"] = Json::array();
  for (const render::QuoteSheet::Part& part : sheet.built)
    out["built"].push_back({{"part", part.title}, {"sizes", part.sizes}});
  out["built_with"] = sheet.built_with;
  for (const char* member : {"lines", "discounts", "taxes", "net", "tax", "total"}) {
    if (sums.contains(member)) out[member] = sums[member];
  }
  if (deposit) out["deposit_asked"] = deposit->text();
  out["weather"] = sheet.weather;
  out["not_included"] = sheet.not_included;
  out["terms"] = sheet.terms;
  out["open"] = open_matters_to_json(open);
  if (mine != nullptr) out["mine"] = mine_json(*mine);
  return out;
}

}  // namespace weatherstruck::files
