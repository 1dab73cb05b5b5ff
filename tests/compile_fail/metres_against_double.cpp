// A bare number is no limit for a length.
#include "weatherstruck/base/quantity.h"

using namespace weatherstruck::base;

constexpr bool low = Metres(1) < Metres(2);
#ifdef FORBIDDEN
constexpr bool nonsense = Metres(1) < 2.0;
#endif
