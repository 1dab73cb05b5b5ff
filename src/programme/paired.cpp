#include "weatherstruck/programme/paired.h"

#include <algorithm>
#include <cmath>

namespace weatherstruck::programme {

Paired paired(const Outlook& after, const Outlook& before) {
  double better = 0;
  double worse = 0;
  for (std::size_t k = 0; k < std::min(after.each.size(), before.each.size()); ++k) {
    better += after.each[k] > before.each[k] ? 1 : 0;
    worse += after.each[k] < before.each[k] ? 1 : 0;
  }
  const double n = std::max(1, after.weathers);
  const double differ = better + worse + 2;
  return {(better - worse) / n,
          std::sqrt(std::max(1.0, differ - (better - worse) * (better - worse) / n)) / n};
}

}  // namespace weatherstruck::programme
