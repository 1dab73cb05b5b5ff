#include "weatherstruck/base/money.h"

#include <fmt/format.h>

#include <limits>
#include <stdexcept>

namespace weatherstruck::base {

namespace {

// ISO 4217 list one: the codes as in Debian's iso-codes 4.15, less what has left circulation since (ANG, BGN,
// CUC, HRK, SLL, ZWL) and with XCG and ZWG, which took the place of two of them (from memory). Fund, metal
// and test codes are left out: no invoice is written in them. Decimals agree with the table in OpenJDK 17.
constexpr std::string_view without_decimals =
    "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX VND VUV XAF XOF XPF ";
constexpr std::string_view with_three_decimals = "BHD IQD JOD KWD LYD OMR TND ";
constexpr std::string_view with_two_decimals =
    "AED AFN ALL AMD AOA ARS AUD AWG AZN BAM BBD BDT BMD BND BOB BRL BSD BTN BWP BYN BZD CAD CDF CHF CNY COP "
    "CRC CUP CVE CZK DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD GTQ GYD HKD HNL HTG HUF IDR ILS "
    "INR IRR JMD KES KGS KHR KPW KYD KZT LAK LBP LKR LRD LSL MAD MDL MGA MKD MMK MNT MOP MRU MUR MVR MWK MXN "
    "MYR MZN NAD NGN NIO NOK NPR NZD PAB PEN PGK PHP PKR PLN QAR RON RSD RUB SAR SBD SCR SDG SEK SGD SHP SLE "
    "SOS SRD SSP STN SVC SYP SZL THB TJS TMT TOP TRY TTD TWD TZS UAH USD UYU UZS VED VES WST XCD XCG YER ZAR "
    "ZMW ZWG ";

bool lists(std::string_view table, std::string_view code) {
  for (std::size_t i = 0; i < table.size(); i += 4) {
    if (table.substr(i, 3) == code) return true;
  }
  return false;
}

constexpr std::int64_t largest = std::numeric_limits<std::int64_t>::max();
constexpr std::int64_t smallest = std::numeric_limits<std::int64_t>::min();

void require_same(const Currency& a, const Currency& b) {
  if (!(a == b)) throw std::invalid_argument("cannot join " + a.code() + " and " + b.code());
}

}  // namespace

std::optional<Currency> Currency::from_code(std::string_view code) {
  if (code.size() != 3) return std::nullopt;
  const std::array<char, 3> letters{code[0], code[1], code[2]};
  if (lists(with_two_decimals, code)) return Currency(letters, 2);
  if (lists(without_decimals, code)) return Currency(letters, 0);
  if (lists(with_three_decimals, code)) return Currency(letters, 3);
  return std::nullopt;
}

Money Money::operator+(const Money& other) const {
  require_same(currency_, other.currency_);
  const bool over = other.minor_ > 0 && minor_ > largest - other.minor_;
  const bool under = other.minor_ < 0 && minor_ < smallest - other.minor_;
  if (over || under) throw std::overflow_error("a sum of money is too large to hold");
  return {minor_ + other.minor_, currency_};
}

Money Money::operator-(const Money& other) const {
  require_same(currency_, other.currency_);
  const bool over = other.minor_ < 0 && minor_ > largest + other.minor_;
  const bool under = other.minor_ > 0 && minor_ < smallest + other.minor_;
  if (over || under) throw std::overflow_error("a difference of money is too large to hold");
  return {minor_ - other.minor_, currency_};
}

std::string Money::text() const {
  // Unsigned, so that the most negative amount has a size too.
  const auto bits = static_cast<std::uint64_t>(minor_);
  const std::uint64_t size = minor_ < 0 ? 0 - bits : bits;
  const int decimals = currency_.decimals();
  std::uint64_t unit = 1;
  for (int i = 0; i < decimals; ++i)
    unit *= 10;
  const char* const sign = minor_ < 0 ? "-" : "";
  if (decimals == 0) return fmt::format("{}{} {}", sign, size, currency_.code());
  return fmt::format("{}{}.{:0{}} {}", sign, size / unit, size % unit, decimals, currency_.code());
}

}  // namespace weatherstruck::base
