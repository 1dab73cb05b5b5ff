#include "invoice_forms.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <istream>
#include <ostream>

#include "page_file.h"
#include "trip_command.h"
#include "weatherstruck/account/einvoice.h"
#include "weatherstruck/app/pdf_file.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/files/clock_text.h"
#include "weatherstruck/files/invoice_csv.h"
#include "weatherstruck/files/invoice_json.h"
#include "weatherstruck/files/invoice_ubl.h"
#include "weatherstruck/render/invoice_html.h"
#include "weatherstruck/render/invoice_text.h"

namespace weatherstruck::app {

std::vector<Option> form_options() {
  return {
      {"--html", "FILE", "write the page for the customer there as well", false, ""},
      {"--pdf", "FILE", "the page as PDF, where a program that prints is installed", false, ""},
      {"--csv", "FILE", "a table for a spreadsheet", false, ""},
      {"--ubl", "FILE", "the electronic invoice: UBL 2.1 by EN 16931", false, ""},
      {"--with", "FACT=VALUE", "what an electronic invoice still needs, such as buyer/country=GB", true, ""}};
}

void add_facts(const Arguments& arguments, account::Seller& seller, account::Buyer& buyer) {
  const auto given = arguments.options.find("--with");
  if (given == arguments.options.end()) return;
  for (const std::string& fact : given->second) {
    const std::size_t sign = fact.find('=');
    if (sign == std::string::npos) {
      throw UsageError(fmt::format(
          "--with: found \"{}\"; allowed: a fact, an equals sign and what it is, buyer/country=GB.", fact));
    }
    account::add_fact(seller, buyer, fact.substr(0, sign), fact.substr(sign + 1));
  }
}

void require_forms(const Arguments& arguments, const account::Invoice& draft) {
  if (!arguments.has("--ubl")) return;
  base::Faults faults = account::einvoice_faults(draft);
  faults.erase(std::remove_if(faults.begin(), faults.end(),
                              [](const base::Fault& fault) { return fault.code == "not-issued"; }),
               faults.end());
  if (!faults.empty()) throw base::InputError("the electronic invoice", std::move(faults));
}

void write_forms(const Arguments& arguments, const account::Invoice& invoice) {
  // First what may be refused, then what only needs room.
  if (const auto path = arguments.value("--ubl")) write_page(*path, files::invoice_ubl(invoice));
  if (const auto path = arguments.value("--html")) write_page(*path, render::invoice_html(invoice));
  if (const auto path = arguments.value("--csv")) write_page(*path, files::invoice_csv(invoice));
  if (const auto path = arguments.value("--pdf")) write_pdf(*path, render::invoice_html(invoice));
}

ExitCode show_invoice(const Arguments& arguments, const Setting& setting, const account::Invoice& invoice) {
  write_forms(arguments, invoice);
  return answer(
      arguments, setting, [&] { return files::invoice_to_json(invoice); },
      [&] { return render::invoice_text(invoice, setting.ink); });
}

bool agreed(const Arguments& arguments, const Setting& setting, const std::string& what) {
  if (arguments.has("--yes")) return true;
  if (!setting.in_is_terminal) return false;
  std::string line;
  setting.out << "\n" << what << " [no] " << std::flush;
  return std::getline(setting.in, line) && (line == "y" || line == "yes");
}

files::MeDocument who_bills(const Setting& setting) {
  if (const auto person = setting.shelf.store().person()) {
    files::MeRead read = files::read_me(person->text, setting.zones);
    if (!read.document) throw base::InputError("who you are", std::move(read.faults));
    if (read.document->rates) return std::move(*read.document);
  }
  throw base::InputError("who you are",
                         {{"no-rates", "", "what you charge is not kept", "name, address and rates",
                           "Say them once with \"weatherstruck me\"."}});
}

base::Money amount_of(std::string_view text, const std::string& what, const base::Currency& currency) {
  std::optional<base::Money> money = files::parse_money(text);
  if (!money) money = files::parse_money(std::string(text) + " " + currency.code());
  if (!money || !(money->currency() == currency)) {
    throw UsageError(fmt::format("{}: found \"{}\"; allowed: an amount in {}, such as {}.", what, text,
                                 currency.code(),
                                 base::Money(currency.decimals() == 0 ? 640 : 64000, currency).text()));
  }
  return *money;
}

account::DepositAsk deposit_of(const std::string& text, const std::string& what,
                               const base::Currency& currency) {
  account::DepositAsk ask;
  if (text.empty() || text.back() != '%') {
    ask.with_tax = amount_of(text, what, currency);
    return ask;
  }
  std::string number = text.substr(0, text.size() - 1);
  while (!number.empty() && number.back() == ' ')
    number.pop_back();
  const auto percent = base::parse_number(number);
  constexpr double whole = 100;
  if (!percent || *percent <= 0 || *percent > whole)
    throw UsageError(fmt::format("{}: found \"{}\"; allowed: above nought, up to 100%.", what, text));
  ask.percent = static_cast<int>(std::lround(*percent * whole));
  return ask;
}

std::int64_t number_of(const std::string& text, const std::string& what) {
  constexpr double most = 1e9;
  const auto wanted = base::parse_number(text);
  if (!wanted || *wanted < 1 || *wanted > most || *wanted != std::floor(*wanted))
    throw UsageError(fmt::format("{}: found \"{}\"; allowed: the number of an invoice.", what, text));
  return static_cast<std::int64_t>(*wanted);
}

}  // namespace weatherstruck::app
