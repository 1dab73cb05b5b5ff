#pragma once
// His own document: who he is, his crew, kit, limits, practice, hours and rates. JSON text in, or every fault
// at once; and out again. What a key means and may be stands in docs/me.schema.json, which a test holds
// against this reader. Sections that the job document has too are read by the same code.
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>

#include "weatherstruck/account/rates.h"
#include "weatherstruck/base/fault.h"
#include "weatherstruck/files/json.h"
#include "weatherstruck/files/reader.h"
#include "weatherstruck/files/zone_source.h"
#include "weatherstruck/works/me.h"

namespace weatherstruck::files {

/// The version of the document's shape: its first member, "weatherstruck".
inline constexpr int me_schema_version = 1;

struct MeDocument {
  works::Me me;
  std::optional<account::Rates> rates;  ///< nullopt: he has not said what he charges
};

/// Either a document and no faults, or faults and no document.
struct MeRead {
  std::optional<MeDocument> document;
  base::Faults faults;  ///< in the order of the text; places are JSON pointers
  JsonLines lines;
  /// The keys each shape of the document was asked for, for the test against the schema.
  std::map<std::string, std::set<std::string>, std::less<>> shapes;
};

/// Comments are allowed.
[[nodiscard]] MeRead read_me(std::string_view text, const ZoneSource& zones);
/// Every member written out; reading it gives the same document.
[[nodiscard]] Json me_to_json(const MeDocument& document);
/// Two spaces a level, a newline at the end.
[[nodiscard]] std::string write_me(const MeDocument& document);

/// The member "rates", by itself.
[[nodiscard]] account::Rates read_rates(ObjectReader from);
[[nodiscard]] Json rates_json(const account::Rates& rates);

}  // namespace weatherstruck::files
