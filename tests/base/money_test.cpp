#include "weatherstruck/base/money.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <limits>
#include <stdexcept>

namespace weatherstruck::base {
namespace {

Currency currency(const char* code) {
  return Currency::from_code(code).value();
}

// Minor units as in ISO 4217 list one.
TEST(Currency, KnowsDecimalsOfTheMinorUnit) {
  EXPECT_EQ(currency("GBP").decimals(), 2);
  EXPECT_EQ(currency("EUR").decimals(), 2);
  EXPECT_EQ(currency("ISK").decimals(), 0);
  EXPECT_EQ(currency("JPY").decimals(), 0);
  EXPECT_EQ(currency("KWD").decimals(), 3);
  EXPECT_EQ(currency("TND").decimals(), 3);
  EXPECT_EQ(currency("AED").code(), "AED");
  EXPECT_EQ(currency("ZWG").code(), "ZWG");
}

TEST(Currency, RefusesWhatIsNotAnActiveCode) {
  for (const char* text : {"", "GB", "GBPX", "gbp", "XXX", "XAU", "DEM", "D A", "P X", "   ", "EUR "}) {
    EXPECT_FALSE(Currency::from_code(text).has_value()) << text;
  }
}

TEST(Money, SpeaksInItsMinorUnit) {
  EXPECT_EQ(Money(12'340, currency("GBP")).text(), "123.40 GBP");
  EXPECT_EQ(Money(5, currency("GBP")).text(), "0.05 GBP");
  EXPECT_EQ(Money(-5, currency("GBP")).text(), "-0.05 GBP");
  EXPECT_EQ(Money(0, currency("GBP")).text(), "0.00 GBP");
  EXPECT_EQ(Money(-1500, currency("ISK")).text(), "-1500 ISK");
  EXPECT_EQ(Money(1234, currency("KWD")).text(), "1.234 KWD");
  EXPECT_EQ(Money(std::numeric_limits<std::int64_t>::min(), currency("EUR")).text(),
            "-92233720368547758.08 EUR");
}

TEST(Money, AddsAndSubtractsWithinOneCurrency) {
  const Money day(28'000, currency("GBP"));
  const Money van(4'550, currency("GBP"));
  EXPECT_EQ((day + van).minor(), 32'550);
  EXPECT_EQ((van - day).minor(), -23'450);
  EXPECT_EQ(day + van, Money(32'550, currency("GBP")));
  EXPECT_NE(day, Money(28'000, currency("EUR")));
}

TEST(Money, RefusesToMixCurrencies) {
  EXPECT_THROW((void)(Money(1, currency("GBP")) + Money(1, currency("EUR"))), std::invalid_argument);
  EXPECT_THROW((void)(Money(1, currency("GBP")) - Money(1, currency("EUR"))), std::invalid_argument);
}

TEST(Money, RefusesToOverflow) {
  const std::int64_t most = std::numeric_limits<std::int64_t>::max();
  const std::int64_t least = std::numeric_limits<std::int64_t>::min();
  const Currency gbp = currency("GBP");
  EXPECT_THROW((void)(Money(most, gbp) + Money(1, gbp)), std::overflow_error);
  EXPECT_THROW((void)(Money(least, gbp) + Money(-1, gbp)), std::overflow_error);
  EXPECT_THROW((void)(Money(least, gbp) - Money(1, gbp)), std::overflow_error);
  EXPECT_THROW((void)(Money(0, gbp) - Money(least, gbp)), std::overflow_error);
  EXPECT_EQ((Money(-1, gbp) - Money(least, gbp)).minor(), most);
  EXPECT_EQ((Money(most, gbp) + Money(least, gbp)).minor(), -1);
}

RC_GTEST_PROP(MoneyProperty, SubtractingUndoesAdding, (std::int32_t a, std::int32_t b)) {
  const Money x(a, currency("GBP"));
  const Money y(b, currency("GBP"));
  RC_ASSERT((x + y) - y == x);
}

}  // namespace
}  // namespace weatherstruck::base
