// Wall clock times and moments do not subtract.
#include "weatherstruck/base/zone.h"

using namespace weatherstruck::base;

constexpr auto span = Instant{} - Instant{};
#ifdef FORBIDDEN
constexpr auto nonsense = LocalTime{} - Instant{};
#endif
