// Wind and rain have limits of their own.
#include "weatherstruck/base/quantity.h"

using namespace weatherstruck::base;

constexpr bool strong = MetresPerSecond(14) > MetresPerSecond(12);
#ifdef FORBIDDEN
constexpr bool nonsense = MetresPerSecond(14) > MillimetresPerHour(12);
#endif
