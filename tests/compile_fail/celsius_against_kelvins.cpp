// A temperature is not a difference of temperatures.
#include "weatherstruck/base/quantity.h"

using namespace weatherstruck::base;

constexpr bool colder = Celsius(1) < Celsius(2);
#ifdef FORBIDDEN
constexpr bool nonsense = Celsius(1) < Kelvins(2);
#endif
