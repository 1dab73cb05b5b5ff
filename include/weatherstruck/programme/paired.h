#pragma once
// Two outlooks through the same weathers, set side by side.
#include "weatherstruck/programme/outlook.h"

namespace weatherstruck::programme {

/// How much surer one is than the other.
struct Paired {
  double gain = 0;   ///< in chance of being home with all sound, -1..1
  double error = 0;  ///< standard error of the gain, of the weathers in which the two differ; never zero

  /// More than chance would make of so many weathers, one way or the other: two errors and more.
  [[nodiscard]] bool shows() const { return gain > 2 * error || gain < -2 * error; }
};

/// Of two outlooks through the same weathers only those count in which they differ (McNemar 1947); one of
/// each kind is added, so that it is never quite sure.
/// @pre both of one seed and as many weathers
[[nodiscard]] Paired paired(const Outlook& after, const Outlook& before);

}  // namespace weatherstruck::programme
