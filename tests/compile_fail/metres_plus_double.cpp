// A bare number does not add to a length.
#include "weatherstruck/base/quantity.h"

using namespace weatherstruck::base;

constexpr Metres sum = Metres(1) + Metres(0.5);
#ifdef FORBIDDEN
constexpr Metres nonsense = Metres(1) + 0.5;
#endif
