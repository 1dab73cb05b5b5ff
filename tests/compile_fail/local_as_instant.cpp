// What the wall clock shows is not a moment until a zone says so.
#include "weatherstruck/base/zone.h"

using namespace weatherstruck::base;

constexpr Instant moment = Instant{};
#ifdef FORBIDDEN
constexpr Instant nonsense = LocalTime{};
#endif
