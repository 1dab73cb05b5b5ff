// Lengths in different units do not add without saying so.
#include "weatherstruck/base/quantity.h"

using namespace weatherstruck::base;

constexpr Metres sum = Metres(1) + to_metres(Millimetres(65));
#ifdef FORBIDDEN
constexpr Metres nonsense = Metres(1) + Millimetres(65);
#endif
