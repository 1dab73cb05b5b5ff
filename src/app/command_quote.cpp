#include <fmt/format.h>

#include <cmath>
#include <ostream>
#include <string>

#include "commands.h"
#include "invoice_forms.h"
#include "page_file.h"
#include "trip_command.h"
#include "weatherstruck/account/rounding.h"
#include "weatherstruck/app/pdf_file.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/desk/invoice_desk.h"
#include "weatherstruck/desk/quote_desk.h"
#include "weatherstruck/files/invoice_csv.h"
#include "weatherstruck/files/quote_json.h"
#include "weatherstruck/render/invoice_text.h"
#include "weatherstruck/trade/materials.h"

namespace weatherstruck::app {
namespace {

constexpr int longest_offer = 365;

std::vector<std::string> values(const Arguments& arguments, const std::string& option) {
  const auto found = arguments.options.find(option);
  return found == arguments.options.end() ? std::vector<std::string>() : found->second;
}

// "facing-brick=845.50/1000": what so much of it costs; without a slash, what a whole pack does.
account::MaterialPrice material_price(const std::string& text, const base::Currency& currency) {
  const std::size_t sign = text.find('=');
  const std::size_t slash = text.rfind('/');
  const std::string key = text.substr(0, sign);
  const trade::Material* row = trade::find_material(key);
  const bool per = slash != std::string::npos && sign != std::string::npos && slash > sign;
  const auto of = per ? base::parse_number(std::string_view(text).substr(slash + 1)) : std::nullopt;
  constexpr double most = 1000;
  if (sign == std::string::npos || row == nullptr || (per && (!of || *of < 0.001 || *of > most))) {
    throw UsageError(fmt::format(
        "--price: found \"{}\"; allowed: a material of the quantities, an equals sign and what a pack "
        "of it costs, cement=6.40, or what so much does, facing-brick=845.50/1000.",
        text));
  }
  const std::string amount = text.substr(sign + 1, per ? slash - sign - 1 : std::string::npos);
  const double thousandths = of.value_or(row->pack_size) * static_cast<double>(account::one_unit);
  return {key, amount_of(amount, "--price", currency), std::llround(thousandths)};
}

// What is said now goes before what is kept.
void take_prices(const Arguments& arguments, account::Rates& rates) {
  for (const std::string& text : values(arguments, "--price")) {
    account::MaterialPrice said = material_price(text, rates.currency);
    std::erase_if(rates.prices,
                  [&](const account::MaterialPrice& one) { return one.material == said.material; });
    rates.prices.push_back(std::move(said));
  }
}

int days_of(const std::string& text) {
  const auto days = base::parse_number(text);
  if (!days || *days < 1 || *days > longest_offer || *days != std::floor(*days)) {
    throw UsageError(
        fmt::format("--good-for: found \"{}\"; allowed: whole days, 1 to {}.", text, longest_offer));
  }
  return static_cast<int>(*days);
}

std::int64_t distance_of(const std::string& text) {
  const auto distance = base::parse_number(text);
  constexpr double longest = 100'000;
  if (!distance || *distance < 0 || *distance > longest) {
    throw UsageError(fmt::format("--distance: found \"{}\"; allowed: 0 to {} miles or km, as you charge by.",
                                 text, longest));
  }
  return std::llround(*distance * static_cast<double>(account::one_unit));
}

void require_answered(const Arguments& arguments, const account::Offer& offer) {
  if (arguments.has("--leave-open")) return;
  base::Faults faults;
  for (const account::Question& question : offer.charges.questions) {
    faults.push_back({"open-question", question.about, question.text, "an answer",
                      "Answer it, or leave it out of the price with --leave-open."});
  }
  if (!faults.empty()) throw base::InputError("the quotation", std::move(faults));
}

// Reckoned prices are no part of the job until they stand in it.
std::string once_agreed(const desk::OpenJob& open, const desk::Quoted& quoted) {
  if (quoted.offer.fixed || quoted.offer.by_the_hour || !open.kept) return {};
  render::Page page;
  page.text(
      fmt::format("Once the customer agrees: weatherstruck quote {} --agreed. Before that no bill has "
                  "a price for the work.",
                  open.job.name));
  return "\n" + page.str();
}

ExitCode agree(const Arguments& arguments, const Setting& setting, const desk::OpenJob& open,
               const desk::Quoted& quoted, base::Instant now) {
  if (!open.kept)
    throw UsageError("--agreed: a file keeps no price. Write it into the file, or keep the job.");
  if (!agreed(arguments, setting,
              fmt::format("Was {} before tax agreed, materials and travel in it?",
                          quoted.sheet ? account::lines_net(quoted.sheet->sums).text() : "no price"))) {
    setting.err << "Nothing is kept" << (setting.in_is_terminal ? ".\n" : ": add --yes if it is to be.\n");
    return ExitCode::failed;
  }
  const desk::OpenJob kept = desk::agree(setting.shelf, open, quoted, setting.zones, now);
  render::Page page;
  page.text(fmt::format("The price of {} is {} before tax. A deposit: weatherstruck invoice {} --deposit 25%",
                        kept.job.name, kept.job.price->fixed->text(), kept.job.name));
  setting.out << page.str();
  return ExitCode::ok;
}

ExitCode offer(const Arguments& arguments, const Setting& setting) {
  const desk::OpenJob open = setting.shelf.open(arguments.positionals.front(), setting.zones);
  const base::Instant now = moment_of(arguments, setting, open.job);
  const files::MeDocument me = who_bills(setting);
  desk::QuoteRequest request{open.job, *me.rates, desk::seller_of(me.me), desk::buyer_of(open.job),
                             open.job.trip.home_zone.day_of(now)};
  take_prices(arguments, request.rates);
  if (const auto days = arguments.value("--good-for")) request.rates.quote_days = days_of(*days);
  request.not_included = values(arguments, "--without");
  if (const auto deposit = arguments.value("--deposit"))
    request.deposit = deposit_of(*deposit, "--deposit", request.rates.currency);
  if (const auto distance = arguments.value("--distance")) request.distance = distance_of(*distance);
  const desk::Quoted quoted = desk::quote(request);
  if (arguments.has("--keep")) desk::keep_for_quotes(setting.shelf, request, setting.zones, now);
  if (arguments.has("--agreed")) return agree(arguments, setting, open, quoted, now);
  const bool page_wanted = arguments.has("--html") || arguments.has("--pdf") || arguments.has("--csv");
  if (page_wanted || !quoted.sheet) require_answered(arguments, quoted.offer);
  if (!quoted.sheet) {
    throw base::InputError("the quotation", {{"nothing-to-offer", "lines", "no price", "at least one",
                                              "Agree a price, or say what an hour and materials cost."}});
  }
  const std::string page = render::quote_html(*quoted.sheet);
  if (const auto path = arguments.value("--html")) {
    if (*path == "-") {
      setting.out << page;
      return ExitCode::ok;
    }
    write_page(*path, page);
  }
  if (const auto path = arguments.value("--csv")) write_page(*path, files::quote_csv(quoted.sheet->sums));
  if (const auto path = arguments.value("--pdf")) write_pdf(*path, page);
  if (page_wanted && open.kept) setting.shelf.store().put_sheet({open.kept->id, {}, "quote", now, page});
  const bool mine = arguments.has("--mine");
  return answer(
      arguments, setting,
      [&] {
        return files::quote_json(*quoted.sheet, quoted.deposit, quoted.offer.charges,
                                 mine ? &quoted.mine : nullptr);
      },
      [&] {
        std::string text = render::quote_text(*quoted.sheet, setting.ink);
        const std::string open_matters = render::open_matters_text(quoted.offer.charges, setting.ink);
        if (!open_matters.empty()) text += "\n" + open_matters;
        if (mine) {
          text += "\n" + render::for_himself_text(quoted.mine, setting.ink);
          // An agreed price is offered whole; what its reckoning lacks is told here alone.
          const std::string lacks =
              quoted.offer.fixed ? render::open_matters_text(quoted.offer.reckoned, setting.ink) : "";
          if (!lacks.empty()) text += "\nThe reckoning lacks what is still open:\n" + lacks;
        }
        return text + once_agreed(open, quoted);
      });
}

}  // namespace

Command quote_command() {
  return {
      {"quote",
       "what the work will cost, as an offer to the customer before it",
       "What is built with its sizes, the price with its tax, what weather may leave undone, what is not in "
       "it, "
       "and how long it holds. A price agreed in the job is offered as it stands; else it is reckoned: hours "
       "by "
       "the norms and your pace at your rate, materials as they are bought at the prices you keep, travel. "
       "What has no price yet is asked about, and no page is written until it is answered. It is an offer "
       "and "
       "no invoice, so that it has no number; a page of it is kept with the job as it was.",
       {{"JOB", "its name, or a file"}},
       false,
       {{"quote shed --mine", "to look at, with what is left of it for you"},
        {"quote shed --price cement=6.40 --price facing-brick=845.50/1000 --html quote.html",
         "for the customer"},
        {"quote shed --agreed", "when the customer said yes"},
        {"quote shed --deposit 25% --good-for 14 --without \"Power and water\" --pdf quote.pdf",
         "with a deposit"}},
       {{"--html", "FILE", "write the page for the customer there; - for the output", false, ""},
        {"--pdf", "FILE", "the page as PDF, where a program that prints is installed", false, ""},
        {"--csv", "FILE", "a table for a spreadsheet", false, ""},
        {"--price", "MATERIAL=AMOUNT[/HOW-MUCH]", "what a pack of it costs, or so much of it", true, ""},
        {"--deposit", "HOW-MUCH",
         "ask for it with the order: 25% of the price, or an amount with its tax; else the usual one", false,
         ""},
        {"--distance", "HOW-FAR",
         "out and back of all trips, in the miles or km that you charge by; else as the job says", false, ""},
        {"--good-for", "DAYS", "how long it holds; else as your rates say", false, ""},
        {"--without", "WORDS", "what is not in the price, beside what your rates name", true, ""},
        {"--leave-open", "",
         "write the page although questions are open; materials without a price are left out of it", false,
         ""},
        {"--keep", "", "keep the prices, days, share and words said now for later quotations", false, ""},
        {"--agreed", "", "the customer said yes: keep the price that was reckoned as the job's, after a yes",
         false, ""},
        {"--yes", "", "keep it without asking", false, ""},
        {"--mine", "", "and for yourself: hours, costs, what an agreed price leaves you", false, ""}}},
      [](const Arguments& arguments) -> Run {
        return [arguments](const Setting& setting) { return offer(arguments, setting); };
      }};
}

}  // namespace weatherstruck::app
