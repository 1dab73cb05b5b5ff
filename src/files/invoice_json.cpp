#include "weatherstruck/files/invoice_json.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <span>
#include <stdexcept>
#include <utility>

#include "plain_numbers.h"
#include "weatherstruck/account/rounding.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/files/clock_text.h"
#include "weatherstruck/files/export.h"
#include "weatherstruck/files/reader.h"

namespace weatherstruck::files {

namespace {

using account::ChargeKind;
using account::TaxCategory;
using account::Unit;

constexpr std::string_view schema_name = "weatherstruck/invoice";
constexpr std::size_t most_lines = 10'000;
constexpr std::size_t longest_name = 120;
constexpr std::size_t longest_text = 600;
constexpr double largest_number = 9e15;  // below 2^53, which a double holds exactly
constexpr double largest_quantity = 1e6;

constexpr std::array<Word<Unit>, 4> units{
    {{"each", Unit::each}, {"hour", Unit::hour}, {"mile", Unit::mile}, {"km", Unit::kilometre}}};

const std::array<Word<ChargeKind>, 8>& kinds() {
  static const auto made = [] {
    std::array<Word<ChargeKind>, 8> words{};
    std::size_t at = 0;
    for (const ChargeKind kind :
         {ChargeKind::price, ChargeKind::stage, ChargeKind::extra, ChargeKind::day_work,
          ChargeKind::materials, ChargeKind::travel, ChargeKind::fallback, ChargeKind::deposit})
      words.at(at++) = {account::word_of(kind), kind};
    return words;
  }();
  return made;
}

const std::array<Word<TaxCategory>, 5>& categories() {
  static const auto made = [] {
    std::array<Word<TaxCategory>, 5> words{};
    std::size_t at = 0;
    for (const TaxCategory category : {TaxCategory::standard, TaxCategory::zero, TaxCategory::exempt,
                                       TaxCategory::reverse_charge, TaxCategory::not_subject})
      words.at(at++) = {account::code_of(category), category};
    return words;
  }();
  return made;
}

std::string word_of_unit(Unit unit) {
  for (const Word<Unit>& word : units) {
    if (word.value == unit) return std::string(word.text);
  }
  throw std::invalid_argument("no such unit");
}

// A whole number without a point, so that the same quantity is always the same text.
Json ratio_json(std::int64_t parts, std::int64_t whole) {
  if (parts % whole == 0) return parts / whole;
  return static_cast<double>(parts) / static_cast<double>(whole);
}

Json rate_json(const account::Tax& tax) {
  return {{"category", std::string(account::code_of(tax.category))}, {"percent", ratio_json(tax.rate, 100)}};
}

Json line_json(const account::InvoiceLine& line) {
  const account::Charge& charge = line.charge;
  Json out = {{"key", charge.key},
              {"kind", std::string(account::word_of(charge.kind))},
              {"text", charge.text},
              {"quantity", ratio_json(charge.quantity, account::one_unit)},
              {"unit", word_of_unit(charge.unit)},
              {"price", charge.unit_price.text()},
              {"tax", rate_json(charge.tax)},
              {"net", line.net.text()}};
  if (charge.discount)
    out["discount"] = {{"amount", charge.discount->amount.text()}, {"reason", charge.discount->reason}};
  return out;
}

// The facts that version 2 brought, under the names that they are written by.
template <class Party>
using Fact = std::pair<std::string_view, std::string Party::*>;

constexpr std::array<Fact<account::Seller>, 6> seller_facts{{{"town", &account::Seller::town},
                                                             {"postcode", &account::Seller::postcode},
                                                             {"country", &account::Seller::country},
                                                             {"registration", &account::Seller::registration},
                                                             {"iban", &account::Seller::iban},
                                                             {"bic", &account::Seller::bic}}};
constexpr std::array<Fact<account::Buyer>, 7> buyer_facts{
    {{"town", &account::Buyer::town},
     {"postcode", &account::Buyer::postcode},
     {"country", &account::Buyer::country},
     {"tax_number", &account::Buyer::tax_number},
     {"registration", &account::Buyer::registration},
     {"reference", &account::Buyer::reference},
     {"purchase_order", &account::Buyer::purchase_order}}};

template <class Party, std::size_t N>
void add_facts(Json& to, const Party& party, const std::array<Fact<Party>, N>& facts) {
  for (const auto& [name, member] : facts) {
    if (!(party.*member).empty()) to[std::string(name)] = party.*member;
  }
}
template <class Party, std::size_t N>
void read_facts(ObjectReader& from, Party& party, const std::array<Fact<Party>, N>& facts) {
  for (const auto& [name, member] : facts)
    party.*member = from.text(name, longest_name, "");
}
template <class Party, std::size_t N>
bool has_facts(const Party& party, const std::array<Fact<Party>, N>& facts) {
  return std::any_of(facts.begin(), facts.end(),
                     [&](const auto& fact) { return !(party.*(fact.second)).empty(); });
}

int version_of(const account::Invoice& invoice) {
  if (std::any_of(invoice.lines.begin(), invoice.lines.end(),
                  [](const account::InvoiceLine& line) { return line.charge.kind == ChargeKind::deposit; }))
    return invoice_schema_version;
  if (invoice.credited && invoice.credited->for_good) return 3;
  const bool newer =
      invoice.credited || !invoice.discounts.empty() || has_facts(invoice.seller, seller_facts) ||
      has_facts(invoice.buyer, buyer_facts) ||
      std::any_of(invoice.lines.begin(), invoice.lines.end(),
                  [](const account::InvoiceLine& line) { return line.charge.discount.has_value(); });
  return newer ? 2 : 1;
}

class InvoiceReader {
 public:
  explicit InvoiceReader(Reading& reading) : reading_(reading) {}

  account::Invoice read(const Json& document) {
    ObjectReader in(reading_, document, "", "invoice");
    in.text("schema", longest_name);
    in.whole("version", 1, invoice_schema_version);
    account::InvoiceNumber number;
    number.series = in.text("series", longest_name, "");
    if (in.member("number") != nullptr) number.number = whole_number(in, "number");
    const account::InvoiceDates dates{day(in, "issued"), day(in, "pay_by"), optional_day(in, "work_from"),
                                      optional_day(in, "work_to")};
    const std::string title = in.text("title", longest_text, "");
    account::Seller seller = read_seller(in);
    account::Buyer buyer = read_buyer(in);
    std::vector<account::TaxTotal> taxes = read_taxes(in);
    std::vector<account::InvoiceLine> lines = read_lines(in, taxes);
    account::Invoice made{number,
                          dates,
                          title,
                          std::move(seller),
                          std::move(buyer),
                          std::move(lines),
                          std::move(taxes),
                          money(in, "net"),
                          money(in, "tax"),
                          money(in, "total"),
                          money(in, "deposit"),
                          money(in, "due")};
    read_discounts(in, made);
    read_credited(in, made);
    read_set_off(in, made);
    in.finish();
    return made;
  }

 private:
  base::Money money(ObjectReader& in, std::string_view key) {
    const Json* value = in.member(key, "an amount");
    if (value != nullptr && value->is_string()) {
      const auto& text = value->get_ref<const std::string&>();
      const bool negative = !text.empty() && text.front() == '-';
      if (const auto read = parse_money(std::string_view(text).substr(negative ? 1 : 0)))
        return negative ? base::Money(0, read->currency()) - *read : *read;
    }
    if (value != nullptr) {
      reading_.add({"bad-money", in.place(key), shown(*value),
                    "an amount and a currency such as \"-35.00 GBP\"",
                    "Restore the invoice from a copy of the record."});
    }
    return {0, *base::Currency::from_code("GBP")};
  }

  /// A number in so many parts of one, whole after that.
  std::int64_t parts(ObjectReader& in, std::string_view key, double low, double high, std::int64_t of_one) {
    const double value = in.number(key, {low, high, ""}) * static_cast<double>(of_one);
    const double whole = std::round(value);
    // The nearest double to a decimal fraction, times a power of ten, is off by far less than this.
    if (std::abs(value - whole) > 1e-3) {
      reading_.add({"out-of-range", in.place(key), fmt::format("{}", value / static_cast<double>(of_one)),
                    fmt::format("a number in whole parts of 1/{}", of_one),
                    "Restore the invoice from a copy of the record."});
    }
    return static_cast<std::int64_t>(whole);
  }

  std::int64_t whole_number(ObjectReader& in, std::string_view key) {
    return parts(in, key, 1, largest_number, 1);
  }

  base::LocalDay day(ObjectReader& in, std::string_view key) {
    const std::string text = in.text(key, longest_name);
    const auto read = base::parse_iso_day(text);
    if (!read && !text.empty()) {
      reading_.add({"bad-time", in.place(key), text, "a date such as 2026-02-13",
                    "Restore the invoice from a copy of the record."});
    }
    return read.value_or(base::LocalDay{});
  }

  std::optional<base::LocalDay> optional_day(ObjectReader& in, std::string_view key) {
    if (in.member(key) == nullptr) return {};
    return day(in, key);
  }

  ObjectReader section(ObjectReader& in, std::string_view key) {
    static const Json empty = Json::object();
    const Json* value = in.member(key, "an object");
    return {reading_, value != nullptr ? *value : empty, in.place(key), key};
  }

  account::Seller read_seller(ObjectReader& in) {
    ObjectReader from = section(in, "seller");
    account::Seller seller{from.text("name", longest_name), from.text("address", longest_text),
                           from.text("contact", longest_name, ""), from.text("tax_number", longest_name, ""),
                           from.text("pay_to", longest_text, "")};
    read_facts(from, seller, seller_facts);
    from.finish();
    return seller;
  }

  account::Buyer read_buyer(ObjectReader& in) {
    ObjectReader from = section(in, "buyer");
    account::Buyer buyer{from.text("name", longest_name), from.text("address", longest_text)};
    read_facts(from, buyer, buyer_facts);
    from.finish();
    return buyer;
  }

  /// Category and rate.
  account::Tax read_tax(ObjectReader& from) {
    account::Tax tax;
    tax.category = from.word<TaxCategory>("category", std::span<const Word<TaxCategory>>(categories()));
    tax.rate = static_cast<int>(parts(from, "percent", 0, 100, 100));
    return tax;
  }

  std::vector<account::TaxTotal> read_taxes(ObjectReader& in) {
    std::vector<account::TaxTotal> taxes;
    const Json::array_t& list = in.list("taxes", most_lines, 1);
    for (std::size_t i = 0; i < list.size(); ++i) {
      ObjectReader from(reading_, list[i], pointer_to(in.place("taxes"), i), "tax-total");
      account::Tax tax = read_tax(from);
      tax.name = from.text("name", longest_name);
      tax.reason = from.text("reason", longest_text, "");
      taxes.push_back({std::move(tax), money(from, "net"), money(from, "amount")});
      from.finish();
    }
    return taxes;
  }

  std::vector<account::InvoiceLine> read_lines(ObjectReader& in,
                                               const std::vector<account::TaxTotal>& taxes) {
    std::vector<account::InvoiceLine> lines;
    const Json::array_t& list = in.list("lines", most_lines, 1);
    for (std::size_t i = 0; i < list.size(); ++i) {
      ObjectReader from(reading_, list[i], pointer_to(in.place("lines"), i), "line");
      account::Charge charge{from.text("key", longest_text),
                             from.word<ChargeKind>("kind", std::span<const Word<ChargeKind>>(kinds())),
                             from.text("text", longest_text),
                             parts(from, "quantity", -largest_quantity, largest_quantity, account::one_unit),
                             from.word<Unit>("unit", std::span<const Word<Unit>>(units)),
                             money(from, "price"),
                             line_tax(from, taxes)};
      if (from.member("discount") != nullptr) {
        ObjectReader off = section(from, "discount");
        charge.discount = account::Discount{money(off, "amount"), off.text("reason", longest_text)};
        off.finish();
      }
      lines.push_back({std::move(charge), money(from, "net")});
      from.finish();
    }
    return lines;
  }

  void read_discounts(ObjectReader& in, account::Invoice& made) {
    const Json::array_t& list = in.list("discounts", most_lines);
    for (std::size_t i = 0; i < list.size(); ++i) {
      ObjectReader from(reading_, list[i], pointer_to(in.place("discounts"), i), "sum-discount");
      const account::Tax tax = line_tax(from, made.taxes);
      made.discounts.push_back({tax, money(from, "amount"), from.text("reason", longest_text)});
      from.finish();
    }
  }

  void read_credited(ObjectReader& in, account::Invoice& made) {
    if (in.member("credited") == nullptr) return;
    ObjectReader from = section(in, "credited");
    account::Credited credited{{from.text("series", longest_name, ""), whole_number(from, "number")},
                               day(from, "issued"),
                               from.text("reason", longest_text)};
    credited.for_good = from.truth("for_good", false);
    from.finish();
    made.credited = std::move(credited);
  }

  void read_set_off(ObjectReader& in, account::Invoice& made) {
    const Json::array_t& list = in.list("set_off", most_lines);
    for (std::size_t i = 0; i < list.size(); ++i) {
      ObjectReader from(reading_, list[i], pointer_to(in.place("set_off"), i), "set-off");
      made.set_off.push_back(
          {{from.text("series", longest_name, ""), whole_number(from, "number")}, day(from, "issued")});
      from.finish();
    }
  }

  /// Its name and reason stand once, with its sum.
  account::Tax line_tax(ObjectReader& line, const std::vector<account::TaxTotal>& taxes) {
    ObjectReader from = section(line, "tax");
    account::Tax tax = read_tax(from);
    from.finish();
    for (const account::TaxTotal& total : taxes) {
      if (total.tax.category == tax.category && total.tax.rate == tax.rate) return total.tax;
    }
    reading_.add({"unknown-tax", line.place("tax"), account::tax_words(tax),
                  "one of the taxes of the invoice", "Restore the invoice from a copy of the record."});
    return tax;
  }

  Reading& reading_;
};

// A version that this program does not know must not be half understood.
void check_version(const Json& document, Reading& reading) {
  const bool ours = document.is_object() && document.contains("schema") && document["schema"] == schema_name;
  if (!ours) {
    reading.add({"not-an-invoice", "/schema", shown(document), "\"weatherstruck/invoice\"",
                 "Look up what was meant to be read."});
    return;
  }
  const Json version = document.contains("version") ? document["version"] : Json();
  if (!version.is_number_integer() || version.get<std::int64_t>() < 1 ||
      version.get<std::int64_t>() > invoice_schema_version) {
    reading.add({"unknown-version", "/version", shown(version),
                 fmt::format("1 to {}", invoice_schema_version), "Use a newer version of the program."});
  }
}

}  // namespace

Json invoice_to_json(const account::Invoice& invoice) {
  Json out = {{"schema", std::string(schema_name)}, {"version", version_of(invoice)}};
  out["series"] = invoice.number.series;
  if (invoice.number.number) out["number"] = *invoice.number.number;
  out["issued"] = iso_day(invoice.dates.issued);
  out["pay_by"] = iso_day(invoice.dates.due);
  if (invoice.dates.work_from) out["work_from"] = iso_day(*invoice.dates.work_from);
  if (invoice.dates.work_to) out["work_to"] = iso_day(*invoice.dates.work_to);
  out["title"] = invoice.title;
  out["seller"] = {{"name", invoice.seller.name},
                   {"address", invoice.seller.address},
                   {"contact", invoice.seller.contact},
                   {"tax_number", invoice.seller.tax_number},
                   {"pay_to", invoice.seller.pay_to}};
  add_facts(out["seller"], invoice.seller, seller_facts);
  out["buyer"] = {{"name", invoice.buyer.name}, {"address", invoice.buyer.address}};
  add_facts(out["buyer"], invoice.buyer, buyer_facts);
  if (invoice.credited) {
    out["credited"] = {{"series", invoice.credited->number.series},
                       {"number", invoice.credited->number.number.value_or(0)},
                       {"issued", iso_day(invoice.credited->issued)},
                       {"reason", invoice.credited->reason}};
    if (invoice.credited->for_good) out["credited"]["for_good"] = true;
  }
  for (const account::SetOff& off : invoice.set_off) {
    out["set_off"].push_back({{"series", off.number.series},
                              {"number", off.number.number.value_or(0)},
                              {"issued", iso_day(off.issued)}});
  }
  out["lines"] = Json::array();
  for (const account::InvoiceLine& line : invoice.lines)
    out["lines"].push_back(line_json(line));
  for (const account::SumDiscount& discount : invoice.discounts) {
    out["discounts"].push_back(
        {{"tax", rate_json(discount.tax)}, {"amount", discount.amount.text()}, {"reason", discount.reason}});
  }
  out["taxes"] = Json::array();
  for (const account::TaxTotal& total : invoice.taxes) {
    Json one = rate_json(total.tax);
    one["name"] = total.tax.name;
    one["reason"] = total.tax.reason;
    one["net"] = total.net.text();
    one["amount"] = total.amount.text();
    out["taxes"].push_back(std::move(one));
  }
  out["net"] = invoice.net.text();
  out["tax"] = invoice.tax.text();
  out["total"] = invoice.total.text();
  out["deposit"] = invoice.deposit.text();
  out["due"] = invoice.due.text();
  return out;
}

std::string write_invoice(const account::Invoice& invoice) {
  return export_text(invoice_to_json(invoice));
}

account::Invoice read_invoice(std::string_view text, const std::string& source) {
  ParsedJson parsed = parse_json(text, {});
  if (!parsed.value) throw base::InputError(source, std::move(parsed.faults));
  Reading reading;
  check_version(*parsed.value, reading);
  if (!reading.faults().empty()) throw base::InputError(source, reading.take_faults());
  account::Invoice invoice = InvoiceReader(reading).read(*parsed.value);
  if (!reading.faults().empty()) throw base::InputError(source, reading.take_faults());
  base::Faults wrong = account::faults_of(invoice);
  if (!wrong.empty()) throw base::InputError(source, std::move(wrong));
  return invoice;
}

Json open_matters_to_json(const account::Charges& charges) {
  Json out = {{"questions", Json::array()}, {"kept_off", Json::array()}};
  for (const account::Question& question : charges.questions)
    out["questions"].push_back({{"code", question.code}, {"about", question.about}, {"text", question.text}});
  for (const account::KeptOff& kept : charges.kept_off)
    out["kept_off"].push_back({{"key", kept.key}, {"text", kept.text}, {"why", kept.why}});
  return out;
}

}  // namespace weatherstruck::files
