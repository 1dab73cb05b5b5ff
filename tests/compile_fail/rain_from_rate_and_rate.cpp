// A rate becomes an amount over hours, not over another rate.
#include "weatherstruck/base/quantity.h"

using namespace weatherstruck::base;

constexpr Millimetres fallen = MillimetresPerHour(0.5) * Hours(3);
#ifdef FORBIDDEN
constexpr Millimetres nonsense = MillimetresPerHour(0.5) * MillimetresPerHour(3);
#endif
