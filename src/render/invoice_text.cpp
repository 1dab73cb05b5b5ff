#include "weatherstruck/render/invoice_text.h"

#include "weatherstruck/render/invoice_words.h"

namespace weatherstruck::render {

namespace {

constexpr std::size_t label_width = 12;

void party(Page& page, const std::string& label, const std::string& name,
           const std::vector<std::string>& lines) {
  page.item(label, name, label_width);
  for (const std::string& line : lines)
    page.item("", line, label_width);
}

// Lines and sums in one table, so that all amounts stand below each other.
Table bill(const account::Invoice& invoice) {
  const bool show_tax = invoice.taxes.size() > 1;
  std::vector<Table::Column> columns{{"", Table::Kind::wrapped}};
  if (show_tax) columns.push_back({"tax", Table::Kind::left});
  columns.push_back({"", Table::Kind::right});
  columns.push_back({"at", Table::Kind::right});
  columns.push_back({invoice.net.currency().code(), Table::Kind::right});
  Table table(columns);
  const auto add = [&](const std::string& text, const std::string& tax, const std::string& quantity,
                       const std::string& at, const base::Money& amount) {
    std::vector<std::string> cells{text};
    if (show_tax) cells.push_back(tax);
    cells.insert(cells.end(), {quantity, at, amount_text(amount)});
    table.add(std::move(cells));
  };
  for (const account::InvoiceLine& line : invoice.lines) {
    const std::string quantity = quantity_words(line.charge);
    const std::string off = discount_words(line.charge);
    add(off.empty() ? line.charge.text : line.charge.text + " (" + off + ")",
        account::tax_words(line.charge.tax), quantity,
        quantity.empty() ? std::string() : amount_text(line.charge.unit_price), line.net);
  }
  table.section("");
  for (const SumRow& row : sum_rows(invoice))
    add(row.words, "", "", "", row.amount);
  return table;
}

}  // namespace

std::string invoice_text(const account::Invoice& invoice, Ink ink) {
  Page page(ink);
  page.title(invoice_title(invoice), long_date(invoice.dates.issued));
  page.gap();
  party(page, "From", invoice.seller.name, seller_lines(invoice));
  page.gap();
  party(page, "To", invoice.buyer.name, buyer_lines(invoice));
  page.gap();
  if (const std::string words = credited_words(invoice); !words.empty()) {
    page.text(words);
    page.gap();
  }
  page.item("For", invoice.title, label_width);
  if (const std::string days = work_days(invoice.dates); !days.empty())
    page.item("Work done", days, label_width);
  page.gap();
  page.table(bill(invoice), 0);
  page.gap();
  for (const std::string& words : closing_words(invoice))
    page.text(words);
  return page.str();
}

std::string open_matters_text(const account::Charges& charges, Ink ink) {
  if (charges.questions.empty() && charges.kept_off.empty()) return {};
  Page page(ink);
  if (!charges.questions.empty()) {
    page.title("To be answered first");
    for (const account::Question& question : charges.questions)
      page.item("  -", question.text, 4);
  }
  if (!charges.kept_off.empty()) {
    if (!charges.questions.empty()) page.gap();
    page.title("Not on this bill");
    for (const account::KeptOff& kept : charges.kept_off)
      page.item("  -", kept.text + ": " + kept.why, 4);
  }
  return page.str();
}

}  // namespace weatherstruck::render
