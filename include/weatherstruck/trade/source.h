#pragma once
// Where a number of the tables comes from, and how far it may be trusted. Every row of every table of this
// floor carries one.
#include <string_view>

namespace weatherstruck::trade {

enum class Standing {
  sourced,          ///< number or wording seen in the named source
  derived,          ///< worked out from sourced numbers; the text says how
  common_practice,  ///< what the trade does; no source names it
  from_memory,      ///< a published number remembered, not seen when the table was written
  assumption        ///< chosen for planning; the text gives the reason where there is one
};

struct Source {
  Standing standing = Standing::assumption;
  std::string_view text;  ///< the publication, or the reason; never empty for sourced, derived, from_memory
};

/// "sourced", "derived", "common practice, no source", "from memory", "assumption".
[[nodiscard]] std::string_view words_for(Standing standing);

}  // namespace weatherstruck::trade
