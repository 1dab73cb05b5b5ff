// Hours of labour are not a moment of the day.
#include "weatherstruck/base/quantity.h"
#include "weatherstruck/base/zone.h"

using namespace weatherstruck::base;

using namespace std::chrono_literals;
constexpr Instant later = Instant{} + 2h;
#ifdef FORBIDDEN
constexpr Instant nonsense = Instant{} + Hours(2);
#endif
