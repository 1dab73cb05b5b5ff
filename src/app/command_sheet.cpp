#include <fmt/format.h>

#include <optional>
#include <ostream>
#include <string>

#include "commands.h"
#include "page_file.h"
#include "trip_command.h"
#include "weatherstruck/app/answers.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/desk/day_book_desk.h"
#include "weatherstruck/desk/van_desk.h"
#include "weatherstruck/files/day_book_json.h"
#include "weatherstruck/files/export.h"
#include "weatherstruck/files/me_json.h"
#include "weatherstruck/render/as_built_sheet.h"
#include "weatherstruck/render/customer_sheet.h"
#include "weatherstruck/render/days.h"
#include "weatherstruck/render/days_drawing.h"
#include "weatherstruck/render/phone_sheet.h"
#include "weatherstruck/render/setting_out_sheet.h"
#include "weatherstruck/render/van_html.h"

namespace weatherstruck::app {
namespace {

constexpr std::string_view kinds = "phone, days, customer, as-built, van, setting-out, day or record";

// A sheet as text for the terminal and as a page.
struct Made {
  std::string text;
  std::string page;
};

render::Caller caller(const Setting& setting, const desk::PlannedTrip& trip) {
  if (!trip.open.kept) return {};  // a file is looked at without opening the record
  if (const auto person = setting.shelf.store().person()) {
    const files::MeRead read = files::read_me(person->text, setting.zones);
    if (read.document) return {read.document->me.name, read.document->me.contact};
  }
  return {};
}

std::string usual_name(const desk::PlannedTrip& trip, const std::string& kind) {
  const std::string day = base::iso_local(trip.open.job.site.zone.to_local(trip.now)).substr(0, 10);
  return fmt::format("{}-{}-{}.html", trip.open.job.name, kind, day);
}

void keep_sheet(const Setting& setting, const desk::PlannedTrip& trip, const std::string& kind,
                const std::string& bytes) {
  if (!trip.open.kept) return;
  setting.shelf.store().put_sheet({trip.open.kept->id, trip.kept_as, kind, trip.now, bytes});
}

Made make(const Setting& setting, desk::PlannedTrip& trip, const std::string& kind) {
  if (kind == "customer") {
    const render::CustomerSheet sheet = render::customer_sheet_of(trip.facts(), caller(setting, trip));
    return {render::customer_text(sheet, setting.ink), render::customer_html(sheet)};
  }
  if (kind == "as-built") {
    const render::AsBuiltSheet sheet = render::as_built_sheet_of(trip.facts());
    return {render::as_built_text(sheet, setting.ink), render::as_built_html(sheet)};
  }
  if (kind == "days") return {render::days_sheet(trip.facts(), setting.ink), render::days_html(trip.facts())};
  const render::MorningFacts morning = desk::take_morning(trip);
  desk::take_turns(trip, morning);
  const std::string take_in =
      trip.open.kept ? fmt::format("weatherstruck log {} --text FILE", trip.open.job.name) : std::string();
  return {"", render::phone_sheet(trip.facts(), morning, {take_in})};
}

ExitCode load_list(const Arguments& arguments, const Setting& setting) {
  const desk::OpenJob open = setting.shelf.open(arguments.positionals.front(), setting.zones);
  const render::VanFacts facts = desk::load_van(open.job, works::bill_of(open.job));
  if (const auto path = arguments.value("--html")) write_page(*path, render::van_html(facts));
  return answer(
      arguments, setting, [&] { return van_answer(facts); },
      [&] { return render::van_sheet(facts, setting.ink); });
}

ExitCode setting_out(const Arguments& arguments, const Setting& setting) {
  const desk::OpenJob open = setting.shelf.open(arguments.positionals.front(), setting.zones);
  const render::SettingOutSheet sheet = render::setting_out_sheet_of(open.job, works::expand(open.job));
  if (const auto path = arguments.value("--html")) {
    if (*path == "-") {
      setting.out << render::setting_out_html(sheet);
      return ExitCode::ok;
    }
    write_page(*path, render::setting_out_html(sheet));
  }
  setting.out << render::setting_out_text(sheet, setting.ink);
  return ExitCode::ok;
}

// What the customer may see of the days is little, unless more is named.
render::DayBookView view_of(const Arguments& arguments) {
  const auto named = arguments.options.find("--with");
  if (!arguments.has("--for-customer")) {
    if (named != arguments.options.end())
      throw UsageError("--with: found without --for-customer; without that everything is shown.");
    return {};
  }
  render::DayBookView view{false, false, false, false, false};
  if (named == arguments.options.end()) return view;
  for (const std::string& word : named->second) {
    if (word == "hours") {
      view.hours = true;
    } else if (word == "plan") {
      view.plan = true;
    } else if (word == "costs") {
      view.costs = true;
    } else if (word == "notes") {
      view.notes = true;
    } else if (word == "photographs") {
      view.photographs = true;
    } else {
      throw UsageError(
          fmt::format("--with: found \"{}\"; allowed: hours, plan, costs, notes or photographs.", word));
    }
  }
  return view;
}

ExitCode days(const Arguments& arguments, const Setting& setting, const std::string& kind,
              const render::DayBookView& view) {
  const desk::OpenJob open = setting.shelf.open(arguments.positionals.front(), setting.zones);
  if (!open.kept) throw UsageError("A file has no site book. Name a job that is kept.");
  const base::Instant now = moment_of(arguments, setting, open.job);
  const base::Zone& zone = open.job.site.zone;
  const desk::KeptDays kept = desk::kept_days(setting.shelf, open, now);
  const render::DayBook book =
      render::day_book_of(kept.facts(), view, kind == "day" ? std::optional(zone.day_of(now)) : std::nullopt);
  if (const auto path = arguments.value("--html")) {
    const std::string page = render::day_book_html(book, zone);
    if (*path == "-") {
      setting.out << page;
      return ExitCode::ok;
    }
    write_page(*path, page);
  }
  return answer(
      arguments, setting,
      [&] {
        files::Json document = files::export_document("day-book");
        document.update(files::day_book_json(book));
        return document;
      },
      [&] { return render::day_book_text(book, zone, setting.ink); });
}

ExitCode trip_sheet(const Arguments& arguments, const Setting& setting, const std::string& kind) {
  return with_trip(arguments, setting, [&](desk::PlannedTrip& trip) {
    const Made made = make(setting, trip, kind);
    if (const auto drawing = arguments.value("--svg")) {
      if (*drawing == "-") {
        setting.out << render::days_svg(trip.facts());
        return ExitCode::ok;
      }
      write_page(*drawing, render::days_svg(trip.facts()));
    }
    const bool page_only = made.text.empty();
    const std::string path = arguments.value("--html").value_or(page_only ? usual_name(trip, kind) : "");
    if (path == "-") {
      setting.out << made.page;
    } else if (!path.empty()) {
      write_page(path, made.page);
      if (page_only) {
        render::Page page;
        page.text(fmt::format("{} ({} kB). Send it to the phone; it needs no signal.", path,
                              (made.page.size() + 999) / 1000));
        setting.out << page.str();
      }
    }
    keep_sheet(setting, trip, kind, made.page);
    if (!page_only && path != "-") setting.out << made.text;
    return ExitCode::ok;
  });
}

}  // namespace

Command sheet_command() {
  return {
      {"sheet",
       "a sheet to hand out: for the phone, the days, the customer, the next trip, the van, setting out",
       "phone: one page for the day with everything on it and boxes to tick, good without a signal; what is "
       "ticked comes back through \"log --text\". days: every day drawn as a course of bricks, with its "
       "tasks "
       "beside it. customer: what to keep off, uncover and fill, and until "
       "when. as-built: finished sizes, levels and what may be built on. van: the load list. setting-out: "
       "rough lines and steps for digging, true lines with diagonals and a 3-4-5, gauge marks and bricks of "
       "each course. day: by the site book, what was done and when, in what weather, what stood still, the "
       "morning's plan against it, hours and costs, and the photographs kept with it, each read through; "
       "that "
       "of another day with --now. record: all days so. "
       "With --for-customer these two show no hours, plan, costs, notes or photographs but those named. A "
       "page of the "
       "phone, the customer or as built is kept with the job as it was.",
       {{"JOB", "its name, or a file"},
        {"SHEET",
         "phone (where it is left off), days, customer, as-built, van, setting-out; by the book day or "
         "record",
         Positional::Kind::optional}},
       true,
       {{"sheet shed", "writes the phone's page for the day"},
        {"sheet shed days --html days.html --svg days.svg", "to print, or for the customer"},
        {"sheet shed customer --html leave-it.html", "on driving off"},
        {"sheet shed record --for-customer --with hours --html record.html", "with the bill"}},
       {{"--html", "FILE", "write the page there; - for the output", false, ""},
        {"--svg", "FILE", "of the days: write the drawing by itself there; - for the output", false, ""},
        {"--for-customer", "", "day and record: only what the customer may see", false, ""},
        {"--with", "WHAT", "hours, plan, costs, notes or photographs as well", true, ""}}},
      [](const Arguments& arguments) -> Run {
        const std::string kind = arguments.positionals.size() > 1 ? arguments.positionals[1] : "phone";
        const bool by_the_book = kind == "day" || kind == "record";
        if (!by_the_book && kind != "phone" && kind != "days" && kind != "customer" && kind != "as-built" &&
            kind != "van" && kind != "setting-out")
          throw UsageError(fmt::format("No sheet \"{}\"; there are {}.", kind, kinds));
        if (arguments.has("--svg") && kind != "days")
          throw UsageError("--svg goes with the sheet \"days\" alone: there is no drawing of the others.");
        if (!by_the_book && (arguments.has("--for-customer") || arguments.has("--with")))
          throw UsageError("--for-customer and --with: only for the sheets day and record.");
        return [arguments, kind, by_the_book, view = view_of(arguments)](const Setting& setting) {
          if (by_the_book) return days(arguments, setting, kind, view);
          if (kind == "setting-out") return setting_out(arguments, setting);
          return kind == "van" ? load_list(arguments, setting) : trip_sheet(arguments, setting, kind);
        };
      }};
}

}  // namespace weatherstruck::app
