// Twice as warm means nothing on the Celsius scale.
#include "weatherstruck/base/quantity.h"

using namespace weatherstruck::base;

constexpr Kelvins doubled = Kelvins(2) * 2;
#ifdef FORBIDDEN
constexpr Celsius nonsense = Celsius(2) * 2;
#endif
