// An amount without a currency is no money.
#include "weatherstruck/base/money.h"

using namespace weatherstruck::base;

inline Money price(Currency currency) {
  return Money(1250, currency);
}
#ifdef FORBIDDEN
inline Money nonsense() {
  return Money(1250);
}
#endif
