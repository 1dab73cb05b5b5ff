#include <fmt/format.h>

#include <cmath>
#include <ostream>
#include <string>

#include "commands.h"
#include "invoice_forms.h"
#include "trip_command.h"
#include "weatherstruck/account/rounding.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/desk/invoice_desk.h"
#include "weatherstruck/desk/photograph_desk.h"
#include "weatherstruck/files/export.h"
#include "weatherstruck/files/invoice_json.h"
#include "weatherstruck/render/invoice_text.h"
#include "weatherstruck/works/standing.h"

namespace weatherstruck::app {
namespace {

// "moving pots=2.5": what, and person-hours.
account::DayWork day_work(const std::string& text) {
  const std::size_t sign = text.rfind('=');
  const auto hours =
      sign == std::string::npos ? std::nullopt : base::parse_number(std::string_view(text).substr(sign + 1));
  constexpr double most = 10000;
  if (!hours || *hours <= 0 || *hours > most || sign == 0) {
    throw UsageError(
        fmt::format("--hours: found \"{}\"; allowed: what was done, an equals sign and the hours, "
                    "\"moving pots=2.5\".",
                    text));
  }
  return {text.substr(0, sign), std::llround(*hours * static_cast<double>(account::one_unit))};
}

// "25%" of the price, or an amount with its tax.
std::optional<account::DepositAsk> deposit_asked(const Arguments& arguments, const account::Rates& rates) {
  const auto said = arguments.value("--deposit");
  if (!said) return {};
  for (const char* option : {"--hours", "--used", "--leave-open"}) {
    if (arguments.has(option)) {
      throw UsageError(fmt::format("--deposit and {}: found both; a deposit is billed by itself.", option));
    }
  }
  return deposit_of(*said, "--deposit", rates.currency);
}

std::vector<std::string> values(const Arguments& arguments, const std::string& option) {
  const auto found = arguments.options.find(option);
  return found == arguments.options.end() ? std::vector<std::string>() : found->second;
}

ExitCode bill(const Arguments& arguments, const Setting& setting) {
  const desk::OpenJob open = setting.shelf.open(arguments.positionals.front(), setting.zones);
  if (!open.kept) {
    throw UsageError(
        fmt::format("A file has no site book to bill by. Keep the job first: weatherstruck job add {}",
                    arguments.positionals.front()));
  }
  const base::Instant now = moment_of(arguments, setting, open.job);
  record::Store& store = setting.shelf.store();
  const base::LocalDay today = open.job.trip.home_zone.day_of(now);
  const std::string series =
      arguments.value("--series")
          .value_or(std::to_string(static_cast<int>(std::chrono::year_month_day(today).year())));
  if (const auto number = arguments.value("--show")) {
    account::Invoice invoice = desk::show_invoice(store, series, number_of(*number, "--show"));
    add_facts(arguments, invoice.seller, invoice.buyer);
    return show_invoice(arguments, setting, invoice);
  }
  const files::MeDocument me = who_bills(setting);
  const works::Standing standing = works::standing_of(
      open.job, desk::with_receipts(open.book, desk::photographs_of(setting.shelf, open)), now);
  account::Terms terms = account::terms_of(*me.rates, open.job.price);
  for (const std::string& text : values(arguments, "--hours"))
    terms.day_work.push_back(day_work(text));
  terms.fallbacks_used = values(arguments, "--used");
  account::Seller seller = desk::seller_of(me.me);
  account::Buyer buyer = desk::buyer_of(open.job);
  add_facts(arguments, seller, buyer);
  const desk::BillRequest request{standing.job,
                                  standing.list,
                                  standing.progress,
                                  open.kept->book_revision,
                                  std::move(terms),
                                  std::move(seller),
                                  std::move(buyer),
                                  series,
                                  today,
                                  arguments.has("--leave-open"),
                                  deposit_asked(arguments, *me.rates)};
  const desk::Draft draft = desk::draft_invoice(store, open.kept->id, request);
  if (!arguments.has("--issue")) {
    return answer(
        arguments, setting,
        [&] {
          files::Json document = files::export_document("invoice-draft");
          document["invoice"] = draft.invoice ? files::invoice_to_json(*draft.invoice) : files::Json(nullptr);
          document["open"] = files::open_matters_to_json(draft.charges);
          return document;
        },
        [&] {
          const std::string open_matters = render::open_matters_text(draft.charges, setting.ink);
          const std::string page = draft.invoice ? render::invoice_text(*draft.invoice, setting.ink)
                                                 : "There is nothing to bill.\n";
          return open_matters.empty() ? page : page + "\n" + open_matters;
        });
  }
  if (draft.invoice) require_forms(arguments, *draft.invoice);
  if (draft.invoice && !arguments.json) setting.out << render::invoice_text(*draft.invoice, setting.ink);
  if (!agreed(arguments, setting, "Issue it? It can not be changed afterwards.")) {
    setting.err << "Nothing is issued" << (setting.in_is_terminal ? ".\n" : ": add --yes if it is to be.\n");
    return ExitCode::failed;
  }
  const std::string key = fmt::format("{}-{}-{}", open.kept->version, open.kept->book_revision,
                                      desk::invoices_of(store, open.kept->id).size());
  const desk::Issued issued = desk::issue_invoice(store, open.kept->id, key, request, now);
  if (arguments.json) return show_invoice(arguments, setting, issued.invoice);
  render::Page page;
  page.gap();
  page.text(fmt::format("Issued as {}. Show it again: weatherstruck invoice {} --show {} --series {}",
                        account::number_text(issued.invoice.number), open.job.name,
                        issued.invoice.number.number.value_or(0), series));
  setting.out << page.str();
  write_forms(arguments, issued.invoice);
  return ExitCode::ok;
}

}  // namespace

Command invoice_command() {
  Command made{
      {"invoice",
       "what is to be billed, and the invoice",
       "From the price agreed, the site book and your rates: the draft, what has to be answered first and "
       "what was kept off. With --deposit only that is billed, and the invoice for the work takes it off "
       "with "
       "its tax. With --issue it gets the next number of its series and stays for ever as it is.",
       {{"JOB", "its name"}},
       false,
       {{"invoice shed", "the draft"},
        {"invoice shed --hours \"moving pots=2.5\" --issue --html bill.html", "on driving off"},
        {"invoice shed --deposit 25% --issue --html deposit.html", "before the work"},
        {"invoice shed --show 7", "as it was issued"},
        {"invoice shed --show 7 --ubl bill.xml --with buyer/country=GB", "for the customer's software"}},
       {{"--issue", "", "issue it, after a yes", false, ""},
        {"--yes", "", "issue it without asking", false, ""},
        {"--hours", "WHAT=HOURS", "hours of day work, or of an extra without a price", true, ""},
        {"--used", "PART", "a fallback of the job that was made use of", true, ""},
        {"--deposit", "HOW-MUCH",
         "a deposit by itself, before the work: 25% of the price, or an amount with its tax", false, ""},
        {"--leave-open", "", "bill what is clear; what is open waits for the next invoice", false, ""},
        {"--show", "N", "an invoice issued before", false, ""},
        {"--series", "S", "the series its number is counted in; else the year", false, ""}}},
      [](const Arguments& arguments) -> Run {
        return [arguments](const Setting& setting) { return bill(arguments, setting); };
      }};
  for (Option& option : form_options())
    made.row.options.push_back(std::move(option));
  return made;
}

}  // namespace weatherstruck::app
