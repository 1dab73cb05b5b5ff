// No floating point ever holds money.
#include "weatherstruck/base/money.h"

using namespace weatherstruck::base;

inline Money price(Currency currency) {
  return Money(1250, currency);
}
#ifdef FORBIDDEN
inline Money nonsense(Currency currency) {
  return Money(12.50, currency);
}
#endif
