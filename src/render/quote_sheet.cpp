#include "weatherstruck/render/quote_sheet.h"

#include <fmt/format.h>

#include <algorithm>

#include "care_words.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/render/invoice_words.h"
#include "weatherstruck/render/part_sizes.h"
#include "weatherstruck/render/speech.h"
#include "weatherstruck/render/trip.h"
#include "weatherstruck/trade/materials.h"

namespace weatherstruck::render {
namespace {

void add_once(std::vector<std::string>& list, std::string words) {
  if (std::find(list.begin(), list.end(), words) == list.end()) list.push_back(std::move(words));
}

class Teller {
 public:
  explicit Teller(const QuoteFacts& facts) : facts_(facts), job_(facts.job) {}

  QuoteSheet tell() {
    QuoteSheet out{facts_.offer.by_the_hour ? "Estimate" : "Quotation", facts_.sums, {}, {}, {}, {}, {}, {}};
    const base::Zone& zone = job_.trip.home_zone;
    account::InvoiceDates days = facts_.sums.dates;
    days.work_from = zone.day_of(job_.trip.leave_home);
    days.work_to = zone.day_of(job_.trip.home_by);
    out.planned = work_days(days);
    for (const PartSizes& sizes : part_sizes(job_, facts_.expansion))
      out.built.push_back(part(sizes));
    out.built_with = built_with();
    out.weather = weather();
    out.not_included = not_included();
    out.terms = terms();
    return out;
  }

 private:
  static QuoteSheet::Part part(const PartSizes& sizes) {
    QuoteSheet::Part out{capital(sizes.title), {}};
    for (const std::string& size : sizes.plain)
      out.sizes.push_back(capital(size));
    if (!sizes.corners.empty()) {
      const auto [least, most] = std::minmax_element(
          sizes.corners.begin(), sizes.corners.end(),
          [](const CornerCourses& a, const CornerCourses& b) { return a.courses < b.courses; });
      out.sizes.push_back(least->courses == most->courses
                              ? count_of(most->courses, "course") + " of brick on the concrete"
                              : fmt::format("{} to {} courses of brick on the concrete, as the ground falls",
                                            least->courses, most->courses));
    }
    for (const std::string& opening : sizes.openings)
      out.sizes.push_back("Opening, " + opening);
    return out;
  }

  [[nodiscard]] std::string built_with() const {
    std::vector<std::string> things;
    for (const works::TotalLine& line : facts_.bill.totals) {
      if (line.unit == "bricks" || line.unit == "flags") add_once(things, line.name);
    }
    for (const works::Batch& batch : facts_.bill.batches)
      add_once(things, batch.what);
    return things.empty() ? std::string() : "Built with " + base::join_and(things) + ".";
  }

  [[nodiscard]] std::vector<std::string> of_importance(works::Importance wanted) const {
    std::vector<std::string> parts;
    for (const works::PartImportance& row : job_.importance) {
      if (row.importance == wanted) parts.push_back("the " + spoken(row.part));
    }
    return parts;
  }

  static std::string fallback_words(const works::Fallback& fallback) {
    const std::string part = spoken(fallback.part);
    switch (fallback.kind) {
      case works::Fallback::Kind::drop:
        return fmt::format("the {} is not built", part);
      case works::Fallback::Kind::gravel_for_flags:
        return fmt::format("the {} is made of gravel in place of flags", part);
      case works::Fallback::Kind::one_course_lower:
        return fmt::format("the {} is built one course lower", part);
    }
    return {};
  }

  [[nodiscard]] std::vector<std::string> weather() const {
    std::vector<std::string> out{
        "Concrete, brickwork and joints are made in dry hours without frost and kept covered. The work waits "
        "for such hours; waiting is not charged."};
    std::vector<std::string> last = of_importance(works::Importance::may);
    const std::vector<std::string> before = of_importance(works::Importance::should);
    if (last.empty()) last = before;
    if (!last.empty()) {
      std::string words =
          "If the weather takes too much of the time, first left undone: " + base::join_and(last);
      if (!before.empty() && last != before) words += "; then " + base::join_and(before);
      out.push_back(words + ".");
    }
    for (const works::Fallback& fallback : job_.fallbacks) {
      std::string words =
          (out.size() > 1 ? "Or " : "If the weather takes too much of the time, ") + fallback_words(fallback);
      if (fallback.price) {
        words += fmt::format(", and {} {} come off the price before tax", amount_text(*fallback.price),
                             fallback.price->currency().code());
      } else {
        words += ", and what comes off the price is agreed first";
      }
      out.push_back(words + ".");
    }
    return out;
  }

  [[nodiscard]] std::vector<std::string> not_included() const {
    std::vector<std::string> out;
    for (const std::string& words : facts_.not_included)
      out.push_back(capital(words));
    if (!facts_.offer.there.empty())
      out.push_back("At the work already, and not charged: " + base::join_and(facts_.offer.there));
    if (!facts_.offer.unpriced.empty() && materials_shown())
      out.push_back("Not priced here: " + base::join_and(facts_.offer.unpriced));
    constexpr double least = 0.1;
    if (facts_.bill.soil_away.value() >= least) {
      out.push_back(fmt::format("Taking away the soil that is left over, about {:.1f} m3 loose",
                                facts_.bill.soil_away.value()));
    }
    out.emplace_back(
        "Whatever is not described here: that is an extra, agreed with its price before it is done");
    return out;
  }

  /// Whether lines of materials belong to this offer.
  [[nodiscard]] bool materials_shown() const {
    return !facts_.offer.fixed || facts_.terms.materials == account::Cover::on_top;
  }

  [[nodiscard]] std::vector<std::string> terms() const {
    std::vector<std::string> out;
    const account::Terms& terms = facts_.terms;
    if (!terms.stages.empty()) {
      out.emplace_back("The price is fixed. Each of its stages is billed when it is done.");
    } else if (facts_.offer.fixed) {
      out.emplace_back("The price is fixed for the work described here.");
    } else if (facts_.offer.by_the_hour) {
      out.emplace_back(
          "The work is charged by the hours that the site book has of it; the hours and sums here are what "
          "is "
          "expected.");
    } else {
      out.emplace_back(
          "The price holds for the work described here, with materials as they are bought, in whole bags and "
          "packs.");
    }
    const bool on_top =
        facts_.offer.fixed ? terms.materials == account::Cover::on_top : facts_.offer.by_the_hour;
    if (on_top) {
      out.push_back(
          terms.rates.on_materials > 0
              ? fmt::format("Materials are charged at what their receipts say and {}; the sums here "
                            "are what is expected.",
                            account::percent_text(terms.rates.on_materials))
              : std::string("Materials are charged at what their receipts say; the sums here are what "
                            "is expected."));
    }
    if (facts_.deposit) {
      out.push_back(
          fmt::format("A deposit of {} {}, tax included, is asked for with the order. It comes off "
                      "the bill.",
                      amount_text(*facts_.deposit), facts_.deposit->currency().code()));
    }
    out.push_back(terms.rates.payment_days == 0
                      ? std::string("Bills are paid on the day.")
                      : fmt::format("Bills are paid within {}.", count_of(terms.rates.payment_days, "day")));
    for (const account::TaxTotal& total : facts_.sums.taxes) {
      if (!total.tax.reason.empty()) out.push_back(total.tax.reason);
    }
    return out;
  }

  const QuoteFacts& facts_;
  const works::Job& job_;
};

/// The sums as an offer says them: nothing is to pay yet.
std::vector<SumRow> offered_rows(const account::Invoice& sums) {
  std::vector<SumRow> rows = sum_rows(sums);
  rows.erase(std::remove_if(rows.begin(), rows.end(),
                            [](const SumRow& row) { return !row.last && row.words == "Total"; }),
             rows.end());
  rows.back().words = "Price, " + sums.net.currency().code();
  return rows;
}

std::string closing(const QuoteSheet& sheet) {
  return fmt::format("Good until {}. This is an offer, not an invoice: nothing is to be paid on it.",
                     long_date(sheet.sums.dates.due));
}

std::string line_words(const account::Charge& charge, bool with_tax) {
  std::string words;
  if (const std::string quantity = quantity_words(charge); !quantity.empty())
    words = quantity + " at " + amount_text(charge.unit_price);
  if (const std::string off = discount_words(charge); !off.empty())
    words += (words.empty() ? "" : ", ") + off;
  if (with_tax) words += (words.empty() ? "" : ", ") + account::tax_words(charge.tax);
  return words;
}

// ---- text

void price_table(Page& page, const account::Invoice& sums) {
  Table table({{"", Table::Kind::wrapped},
               {"", Table::Kind::right},
               {sums.net.currency().code(), Table::Kind::right}});
  for (const account::InvoiceLine& line : sums.lines)
    table.add({line.charge.text, line_words(line.charge, sums.taxes.size() > 1), amount_text(line.net)});
  table.section("");
  for (const SumRow& row : offered_rows(sums))
    table.add({row.words, "", amount_text(row.amount)});
  page.table(table, 2);
}

// ---- page

using html::element;
using html::Html;
using html::line;

constexpr std::string_view style = R"css(
.who { display: grid; grid-template-columns: repeat(auto-fit, minmax(15rem, 1fr)); gap: .75rem 2rem; margin: 1rem 0; }
address { font-style: normal; }
.who h2 { border: 0; margin: 0; padding: 0; font-size: 1em; }
.name { font-weight: 700; }
td.n, th.n { padding-right: 0; }
tbody th { white-space: normal; overflow-wrap: anywhere; }
.part { display: block; font-size: 1rem; }
dl + p { margin-top: .75rem; }
tfoot tr.pay > * { font-weight: 800; font-size: 1.2rem; border-top: .15rem solid #111; }
.until { font-weight: 700; margin-top: 1.5rem; }
@media (min-width: 40rem), print { dl { grid-template-columns: 9rem 1fr; } }
@media print { body { font-size: 10.5pt; } .part { font-size: 9.5pt; } tfoot { display: table-row-group; }
  tfoot tr.pay > * { font-size: 12pt; } .who { margin: 3mm 0; } dl { grid-template-columns: 34mm 1fr; } }
)css";

Html party(std::string_view heading, const std::string& name, const std::vector<std::string>& lines) {
  Html inside = element("span", {{"class", "name"}}, name);
  for (const std::string& words : lines)
    inside += html::single("br", {}) + html::text(words);
  return line(element("div", line(element("h2", heading)) + element("address", inside)));
}

Html row(const html::Attributes& attributes, const Html& heading, const base::Money& amount) {
  return line(element(
      "tr", attributes,
      element("th", {{"scope", "row"}}, heading) + element("td", {{"class", "n"}}, amount_text(amount))));
}

Html price_rows(const account::Invoice& sums) {
  const Html head = element("th", {{"scope", "col"}}, "Work and materials") +
                    element("th", {{"scope", "col"}, {"class", "n"}}, sums.net.currency().code());
  Html lines;
  for (const account::InvoiceLine& one : sums.lines) {
    Html heading = html::text(one.charge.text);
    if (const std::string words = line_words(one.charge, sums.taxes.size() > 1); !words.empty())
      heading += html::text(" ") + element("span", {{"class", "part"}}, words);
    lines += row({}, heading, one.net);
  }
  Html foot;
  for (const SumRow& sum : offered_rows(sums))
    foot += row(sum.last ? html::Attributes{{"class", "pay"}} : html::Attributes{}, html::text(sum.words),
                sum.amount);
  return line(element("table", line(Html()) + line(element("thead", element("tr", head))) +
                                   line(element("tbody", line(Html()) + lines)) +
                                   line(element("tfoot", line(Html()) + foot))));
}

}  // namespace

QuoteSheet quote_sheet_of(const QuoteFacts& facts) {
  return Teller(facts).tell();
}

std::string quote_text(const QuoteSheet& sheet, Ink ink) {
  constexpr std::size_t at = 12;
  const account::Invoice& sums = sheet.sums;
  Page page(ink);
  page.title(sheet.title, long_date(sums.dates.issued));
  const auto party = [&](std::string_view label, const std::string& name,
                         const std::vector<std::string>& lines) {
    page.gap();
    page.item(label, name, at);
    for (const std::string& words : lines)
      page.item("", words, at);
  };
  party("From", sums.seller.name, seller_lines(sums));
  party("To", sums.buyer.name, buyer_lines(sums));
  page.gap();
  page.item("For", sums.title, at);
  page.item("Planned", sheet.planned + ", if the weather lets it", at);
  page.heading("What is built");
  for (const QuoteSheet::Part& part : sheet.built) {
    page.text(part.title, 2);
    for (const std::string& size : part.sizes)
      page.text(size, 4);
  }
  page.text(sheet.built_with, 2);
  page.heading("The price");
  price_table(page, sums);
  const auto list = [&](std::string_view heading, const std::vector<std::string>& words) {
    if (words.empty()) return;
    page.heading(heading);
    for (const std::string& one : words)
      page.item("  -", one, 4);
  };
  list("The weather", sheet.weather);
  list("Not in the price", sheet.not_included);
  list("What holds for it", sheet.terms);
  page.gap();
  page.text(closing(sheet));
  return page.str();
}

std::string quote_html(const QuoteSheet& sheet) {
  const account::Invoice& sums = sheet.sums;
  Html head = line(Html()) + line(element("h1", sheet.title)) +
              line(element("p", long_date(sums.dates.issued) + ", good until " + long_date(sums.dates.due)));
  Html body = line(element("div", {{"class", "who"}},
                           line(Html()) + party("From", sums.seller.name, seller_lines(sums)) +
                               party("To", sums.buyer.name, buyer_lines(sums))));
  body += line(element("p", {{"class", "name"}}, sums.title));
  body += line(element("p", "Planned for " + sheet.planned + ", if the weather lets it."));
  Html parts;
  for (const QuoteSheet::Part& part : sheet.built) {
    parts += line(element("dt", part.title));
    for (const std::string& size : part.sizes)
      parts += line(element("dd", size));
  }
  Html built = line(element("dl", line(Html()) + parts));
  if (!sheet.built_with.empty()) built += line(element("p", sheet.built_with));
  body += care::section("built", "What is built", built);
  body += care::section("price", "The price", price_rows(sums));
  body += care::section("weather", "The weather", care::bullets(sheet.weather));
  body += care::section("apart", "Not in the price", care::bullets(sheet.not_included));
  body += care::section("terms", "What holds for it", care::bullets(sheet.terms));
  body += line(element("p", {{"class", "until"}}, closing(sheet)));
  return html::document({sheet.title + ": " + sums.title,
                         line(element("header", head)) + line(element("main", line(Html()) + body)),
                         style,
                         {}});
}

std::string for_himself_text(const account::ForHimself& mine, Ink ink) {
  Page page(ink);
  page.title("For yourself, before tax");
  Table table({{"", Table::Kind::wrapped}, {mine.reckoned.currency().code(), Table::Kind::right}});
  const auto add = [&](const std::string& words, const base::Money& amount) {
    table.add({words, amount_text(amount)});
  };
  add(fmt::format("Labour, {} h in fair weather", base::plain_number(mine.hours.value(), 1)), mine.labour);
  add("Materials as they are paid for", mine.materials);
  if (mine.put_on.minor() != 0) add("Put on them", mine.put_on);
  add("Travel", mine.travel);
  add("By reckoning", mine.reckoned);
  if (mine.agreed) {
    add("The price agreed", *mine.agreed);
    const base::Money apart = *mine.agreed - mine.reckoned;
    add(apart.minor() < 0 ? "It is less by" : "It is more by",
        apart.minor() < 0 ? base::Money(0, apart.currency()) - apart : apart);
  }
  if (mine.an_hour) add("Left of the price for an hour of work", *mine.an_hour);
  page.table(table, 2);
  return page.str();
}

}  // namespace weatherstruck::render
