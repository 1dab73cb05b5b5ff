// Two points on a temperature scale do not add; a difference does.
#include "weatherstruck/base/quantity.h"

using namespace weatherstruck::base;

constexpr Celsius warmer = Celsius(2) + Kelvins(3);
#ifdef FORBIDDEN
constexpr Celsius nonsense = Celsius(2) + Celsius(3);
#endif
