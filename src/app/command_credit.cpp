#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <ostream>
#include <string>

#include "commands.h"
#include "invoice_forms.h"
#include "trip_command.h"
#include "weatherstruck/account/rounding.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/desk/invoice_desk.h"
#include "weatherstruck/files/export.h"
#include "weatherstruck/files/invoice_json.h"
#include "weatherstruck/render/invoice_text.h"

namespace weatherstruck::app {
namespace {

// "2", or "2=1.5": a line of the invoice counted from the top, and how much of it.
account::CreditLine credit_line(const std::string& text) {
  const std::size_t sign = text.find('=');
  account::CreditLine line;
  line.line = static_cast<std::size_t>(number_of(text.substr(0, sign), "--line")) - 1;
  if (sign == std::string::npos) return line;
  constexpr double most = 1e6;
  const auto quantity = base::parse_number(std::string_view(text).substr(sign + 1));
  if (!quantity || *quantity <= 0 || *quantity > most) {
    throw UsageError(fmt::format(
        "--line: found \"{}\"; allowed: a line of the invoice, or with an equals sign how much of it, 2=1.5.",
        text));
  }
  line.thousandths = std::llround(*quantity * static_cast<double>(account::one_unit));
  return line;
}

std::string what_follows(const account::Invoice& note) {
  render::Page page;
  const bool deposit =
      std::any_of(note.lines.begin(), note.lines.end(), [](const account::InvoiceLine& line) {
        return line.charge.kind == account::ChargeKind::deposit && line.charge.quantity > 0;
      });
  if (deposit) {
    page.text("What is given back of the deposit is not taken off the invoices to come.");
    return page.str();
  }
  page.text(note.credited->for_good
                ? "What is given back is not billed again (--again if it is to be)."
                : "What is taken back comes up at the next bill again (--for-good if it is not to).");
  return page.str();
}

ExitCode credit(const Arguments& arguments, const Setting& setting) {
  const desk::OpenJob open = setting.shelf.open(arguments.positionals.front(), setting.zones);
  if (!open.kept) throw UsageError("A file has no invoices. Name a job that is kept.");
  const base::Instant now = moment_of(arguments, setting, open.job);
  const base::LocalDay today = open.job.trip.home_zone.day_of(now);
  const std::string year = std::to_string(static_cast<int>(std::chrono::year_month_day(today).year()));
  record::Store& store = setting.shelf.store();
  desk::CreditRequest request;
  request.own_series = arguments.value("--series").value_or(year);
  request.series = arguments.value("--of-series").value_or(request.own_series);
  request.number = number_of(arguments.positionals.at(1), "NUMBER");
  request.reason = arguments.value("--reason").value_or("");
  request.today = today;
  if (const auto lines = arguments.options.find("--line"); lines != arguments.options.end()) {
    for (const std::string& text : lines->second)
      request.lines.push_back(credit_line(text));
  }
  if (arguments.has("--for-good") && arguments.has("--again"))
    throw UsageError("--for-good and --again: found both; allowed: one of them.");
  // A line is mostly given back because it was too much, a whole invoice because it has to be written anew.
  request.for_good = request.lines.empty() ? arguments.has("--for-good") : !arguments.has("--again");
  account::Invoice draft = desk::draft_credit(store, open.kept->id, request);
  add_facts(arguments, draft.seller, draft.buyer);
  if (!arguments.has("--issue")) {
    return answer(
        arguments, setting,
        [&] {
          files::Json document = files::export_document("credit-draft");
          document["credit_note"] = files::invoice_to_json(draft);
          return document;
        },
        [&] { return render::invoice_text(draft, setting.ink) + "\n" + what_follows(draft); });
  }
  require_forms(arguments, draft);
  if (!arguments.json) setting.out << render::invoice_text(draft, setting.ink) << "\n" << what_follows(draft);
  if (!agreed(arguments, setting, "Issue it? It can not be changed afterwards.")) {
    setting.err << "Nothing is issued" << (setting.in_is_terminal ? ".\n" : ": add --yes if it is to be.\n");
    return ExitCode::failed;
  }
  const std::string key = fmt::format("credit-{}-{}-{}", request.series, request.number,
                                      desk::invoices_of(store, open.kept->id).size());
  account::Invoice note = desk::issue_credit(store, open.kept->id, key, request, now).invoice;
  add_facts(arguments, note.seller, note.buyer);
  if (arguments.json) return show_invoice(arguments, setting, note);
  render::Page page;
  page.gap();
  page.text(fmt::format("Issued as {}. Show it again: weatherstruck invoice {} --show {} --series {}",
                        account::number_text(note.number), open.job.name, note.number.number.value_or(0),
                        request.own_series));
  setting.out << page.str();
  write_forms(arguments, note);
  return ExitCode::ok;
}

}  // namespace

Command credit_command() {
  Command made{{"credit",
                "take an invoice back, whole or in part",
                "An invoice that was issued stays as it is; a credit note takes it back. Without --line that "
                "is all that earlier notes left, and its work comes up at the next bill again; with --line "
                "what is given back is not billed again. --again and --for-good say it the other way. With "
                "--issue it gets the next number of its series.",
                {{"JOB", "its name"}, {"NUMBER", "of the invoice"}},
                false,
                {{"credit shed 7 --reason \"wrong customer\" --issue", "all of it"},
                 {"credit shed 7 --line 2=1.5 --reason \"counted twice\" --issue",
                  "an hour and a half of its second line"}},
                {{"--reason", "WORDS", "why, as the note says it", false, ""},
                 {"--line", "N[=HOW-MUCH]", "a line of the invoice, counted from the top", true, ""},
                 {"--for-good", "", "what is given back is not billed again", false, ""},
                 {"--again", "", "what is taken back comes up at the next bill again", false, ""},
                 {"--issue", "", "issue it, after a yes", false, ""},
                 {"--yes", "", "issue it without asking", false, ""},
                 {"--series", "S", "the series its own number is counted in; else the year", false, ""},
                 {"--of-series", "S", "that of the invoice, where it is another", false, ""}}},
               [](const Arguments& arguments) -> Run {
                 return [arguments](const Setting& setting) { return credit(arguments, setting); };
               }};
  for (Option& option : form_options())
    made.row.options.push_back(std::move(option));
  return made;
}

}  // namespace weatherstruck::app
