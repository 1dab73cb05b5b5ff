// A bare number has no currency.
#include "weatherstruck/base/money.h"

using namespace weatherstruck::base;

inline Money sum(Money a, Money b) {
  return a + b;
}
#ifdef FORBIDDEN
inline Money nonsense(Money a) {
  return a + 5;
}
#endif
