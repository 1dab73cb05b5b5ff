#include "weatherstruck/account/einvoice.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

#include "weatherstruck/base/text.h"

namespace weatherstruck::account {

namespace {

// ISO 3166-1 alpha-2 as in Debian's iso-codes 4.15, with XK; XI and EL are prefixes of tax numbers only
// (Northern Ireland and Greece: Council Directive 2006/112/EC, article 215, and its amendment 2020/1756).
constexpr std::string_view countries =
    "AD AE AF AG AI AL AM AO AQ AR AS AT AU AW AX AZ BA BB BD BE BF BG BH BI BJ BL BM BN BO BQ BR BS BT BV "
    "BW "
    "BY BZ CA CC CD CF CG CH CI CK CL CM CN CO CR CU CV CW CX CY CZ DE DJ DK DM DO DZ EC EE EG EH ER ES ET "
    "FI "
    "FJ FK FM FO FR GA GB GD GE GF GG GH GI GL GM GN GP GQ GR GS GT GU GW GY HK HM HN HR HT HU ID IE IL IM "
    "IN "
    "IO IQ IR IS IT JE JM JO JP KE KG KH KI KM KN KP KR KW KY KZ LA LB LC LI LK LR LS LT LU LV LY MA MC MD "
    "ME "
    "MF MG MH MK ML MM MN MO MP MQ MR MS MT MU MV MW MX MY MZ NA NC NE NF NG NI NL NO NP NR NU NZ OM PA PE "
    "PF "
    "PG PH PK PL PM PN PR PS PT PW PY QA RE RO RS RU RW SA SB SC SD SE SG SH SI SJ SK SL SM SN SO SR SS ST "
    "SV "
    "SX SY SZ TC TD TF TG TH TJ TK TL TM TN TO TR TT TV TW TZ UA UG UM US UY UZ VA VC VE VG VI VN VU WF WS "
    "XK "
    "YE YT ZA ZM ZW ";

bool lists(std::string_view table, std::string_view code) {
  for (std::size_t i = 0; i + 1 < table.size(); i += 3) {
    if (table.substr(i, 2) == code) return true;
  }
  return false;
}

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}
bool is_capital(char c) {
  return c >= 'A' && c <= 'Z';
}

bool begins_with_country(std::string_view tax_number) {
  const std::string squeezed_number = squeezed(tax_number);
  const std::string_view prefix = std::string_view(squeezed_number).substr(0, 2);
  return squeezed_number.size() > 2 && (is_country(prefix) || prefix == "EL" || prefix == "XI");
}

class Check {
 public:
  explicit Check(const Invoice& invoice) : invoice_(invoice) {}

  base::Faults run() {
    money();
    if (!invoice_.number.number) {
      add("not-issued", "number (BR-02)", "a draft", "an invoice with its number", "Issue it first.");
    }
    const Seller& seller = invoice_.seller;
    const Buyer& buyer = invoice_.buyer;
    country(seller.country, "seller/country (BR-09)", true);
    country(buyer.country, "buyer/country (BR-11)", false);
    tax_number(seller.tax_number, "seller/tax-number (BR-CO-09)", true);
    tax_number(buyer.tax_number, "buyer/tax-number (BR-CO-09)", false);
    if (seller.tax_number.empty() && seller.registration.empty()) {
      add("missing", "seller/registration (BR-CO-26)", "neither a tax number nor another",
          "a number by which he is known",
          remedy("seller/registration", "his number in a register, or at the tax office", true));
    }
    const auto has = [&](TaxCategory category) {
      return std::any_of(invoice_.lines.begin(), invoice_.lines.end(),
                         [&](const InvoiceLine& line) { return line.charge.tax.category == category; });
    };
    if (has(TaxCategory::reverse_charge) && buyer.tax_number.empty() && buyer.registration.empty()) {
      add("missing", "buyer/tax-number (BR-AE-02)", "nothing",
          "the number under which the customer accounts for the tax",
          remedy("buyer/tax-number", "the customer's tax number", false));
    }
    if (has(TaxCategory::not_subject) && !buyer.tax_number.empty()) {
      add("not-wanted", "buyer/tax-number (BR-O-02)", buyer.tax_number, "none on a bill outside the tax",
          "Take the customer's tax number out of the job, or charge the tax.");
    }
    if (!seller.iban.empty() && !is_iban(seller.iban)) {
      add("bad-text", "seller/iban (BR-50)", seller.iban, "an IBAN whose check digits are right",
          "Copy it from a statement of the bank; it stands in the me document as \"iban\".");
    }
    return std::move(faults_);
  }

 private:
  void add(std::string code, std::string place, std::string found, std::string allowed, std::string what) {
    faults_.push_back(
        {std::move(code), std::move(place), std::move(found), std::move(allowed), std::move(what)});
  }
  static std::string remedy(const std::string& place, const std::string& what, bool his_own) {
    return fmt::format("Write {} into {}, or say it now: --with {}=...", what,
                       his_own ? "the me document" : "the job's customer", place);
  }

  void money() {
    const base::Currency& currency = invoice_.net.currency();
    constexpr int decimals = 2;
    if (currency.decimals() == decimals) return;
    add("unfit-currency", "currency (BR-DEC-12)",
        fmt::format("{}, which is counted to {} decimals", currency.code(), currency.decimals()),
        "a currency of two decimals, as EN 16931 knows no other",
        "Send the invoice as a page, as PDF, CSV or JSON.");
  }

  void country(const std::string& code, const std::string& place, bool his_own) {
    if (is_country(code)) return;
    const std::string plain = place.substr(0, place.find(' '));
    if (code.empty()) {
      add("missing", place, "nothing", "a country, two letters of ISO 3166-1",
          remedy(plain, "the country, such as GB", his_own));
    } else {
      add("bad-text", place, code, "two letters of ISO 3166-1, such as GB",
          remedy(plain, "the country's two letters", his_own));
    }
  }

  void tax_number(const std::string& number, const std::string& place, bool his_own) {
    if (number.empty() || begins_with_country(number)) return;
    add("bad-text", place, number,
        "a number that begins with its country's two letters, such as GB 123 4567 89",
        remedy(place.substr(0, place.find(' ')), "it with the letters", his_own));
  }

  const Invoice& invoice_;
  base::Faults faults_;
};

}  // namespace

bool is_country(std::string_view code) {
  return code.size() == 2 && lists(countries, code);
}

std::string squeezed(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == ' ') continue;
    out += c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
  }
  return out;
}

bool is_iban(std::string_view text) {
  const std::string iban = squeezed(text);
  constexpr std::size_t shortest = 15;
  constexpr std::size_t longest = 34;
  const bool sound =
      iban.size() >= shortest && iban.size() <= longest && is_capital(iban[0]) && is_capital(iban[1]) &&
      is_digit(iban[2]) && is_digit(iban[3]) &&
      std::all_of(iban.begin(), iban.end(), [](char c) { return is_digit(c) || is_capital(c); });
  if (!sound) return false;
  constexpr int modulus = 97;
  int rest = 0;
  // The first four go to the end, a letter counts as two digits: A is 10, Z is 35.
  for (const char c : iban.substr(4) + iban.substr(0, 4)) {
    rest = is_digit(c) ? (rest * 10 + (c - '0')) % modulus : (rest * 100 + (c - 'A' + 10)) % modulus;
  }
  return rest == 1;
}

base::Faults einvoice_faults(const Invoice& invoice) {
  base::Faults faults = faults_of(invoice);
  for (base::Fault& fault : Check(invoice).run())
    faults.push_back(std::move(fault));
  return faults;
}

void add_fact(Seller& seller, Buyer& buyer, std::string_view place, const std::string& value) {
  const std::array<std::pair<std::string_view, std::string*>, 15> known{{
      {"seller/contact", &seller.contact},
      {"seller/tax-number", &seller.tax_number},
      {"seller/pay-to", &seller.pay_to},
      {"seller/town", &seller.town},
      {"seller/postcode", &seller.postcode},
      {"seller/country", &seller.country},
      {"seller/registration", &seller.registration},
      {"seller/iban", &seller.iban},
      {"seller/bic", &seller.bic},
      {"buyer/town", &buyer.town},
      {"buyer/postcode", &buyer.postcode},
      {"buyer/country", &buyer.country},
      {"buyer/tax-number", &buyer.tax_number},
      {"buyer/registration", &buyer.registration},
      {"buyer/reference", &buyer.reference},
  }};
  const std::string found(place);
  std::string* member = place == "buyer/purchase-order" ? &buyer.purchase_order : nullptr;
  std::string names;
  for (const auto& [name, at] : known) {
    if (name == place) member = at;
    names += std::string(name) + ", ";
  }
  const auto refuse = [&](const std::string& code, const std::string& what, const std::string& allowed,
                          const std::string& remedy) {
    throw base::InputError("--with", {{code, found, what, allowed, remedy}});
  };
  if (member == nullptr) {
    refuse("unknown-fact", found, names + "buyer/purchase-order", "Name one of them.");
  } else if (value.empty() || base::display_width(value) > 120 || value.find('\n') != std::string::npos) {
    refuse("bad-text", value, "1 to 120 characters in one line", "Say it shorter.");
  } else if (!member->empty() && *member != value) {
    refuse("said-already", value, *member + ", as it stands already",
           "Change it where it stands; an invoice that was issued keeps what it says.");
  } else {
    *member = value;
  }
}

}  // namespace weatherstruck::account
