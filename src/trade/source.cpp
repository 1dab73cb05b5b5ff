#include "weatherstruck/trade/source.h"

namespace weatherstruck::trade {

std::string_view words_for(Standing standing) {
  switch (standing) {
    case Standing::sourced:
      return "sourced";
    case Standing::derived:
      return "derived";
    case Standing::common_practice:
      return "common practice, no source";
    case Standing::from_memory:
      return "from memory";
    case Standing::assumption:
      return "assumption";
  }
  return "assumption";
}

}  // namespace weatherstruck::trade
