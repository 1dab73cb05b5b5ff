#include "weatherstruck/render/invoice_html.h"

#include <string_view>
#include <vector>

#include "weatherstruck/base/text.h"
#include "weatherstruck/render/html.h"
#include "weatherstruck/render/invoice_words.h"

namespace weatherstruck::render {

namespace {

// Dark on white only: it is printed, and read outdoors. Two columns are all that 360 px hold, so quantity and
// price stand below the words of their line on every width. No line is torn in two on paper.
constexpr std::string_view style = R"css(
:root { color-scheme: light; }
* { box-sizing: border-box; }
body { margin: 0; background: #fff; color: #1b1b1b;
  font: 1rem/1.45 "Source Sans 3", "Segoe UI", "Helvetica Neue", "Liberation Sans", Arial, sans-serif; }
main { max-width: 44rem; margin: 0 auto; padding: 1.5rem 1rem 3rem; }
header { border-bottom: .5rem solid #7a2e1d; padding-bottom: .75rem; }
h1 { font-size: 1.6rem; line-height: 1.2; margin: 0; }
h2 { font-size: 1rem; margin: 0; color: #4d443c; font-weight: 400; }
p, address { margin: 0; font-style: normal; overflow-wrap: anywhere; }
.draft { margin: 1rem 0 0; padding: .5rem .75rem; border: .15rem dashed #7a2e1d; font-weight: 600; }
.who { display: grid; grid-template-columns: repeat(auto-fit, minmax(15rem, 1fr)); gap: 1.25rem 2rem;
  margin: 1.5rem 0; }
.name { font-weight: 600; }
table { width: 100%; border-collapse: collapse; margin: 1rem 0 1.5rem; }
th, td { text-align: left; vertical-align: top; padding: .45rem 0; font-weight: 400; }
th { overflow-wrap: anywhere; padding-right: 1rem; }
td, th.n { text-align: right; white-space: nowrap; padding-right: 0; font-variant-numeric: tabular-nums; }
thead th { color: #4d443c; border-bottom: .1rem solid #1b1b1b; }
tbody tr { border-bottom: .06rem solid #b9aea3; }
.part { display: block; color: #4d443c; }
tfoot th, tfoot td { padding: .15rem 0; }
tfoot th { text-align: right; padding-right: 1rem; }
tfoot tr:first-child > * { padding-top: .9rem; }
tfoot tr.pay > * { font-weight: 700; font-size: 1.2rem; }
tfoot tr.pay td { border-top: .1rem solid #1b1b1b; }
footer p { margin-bottom: .5rem; }
@media print {
  @page { size: A4; margin: 18mm; }
  body { font-size: 10.5pt; }
  main { max-width: none; padding: 0; }
  tfoot { display: table-row-group; }
  tr, footer, .who > * { break-inside: avoid; }
  header { print-color-adjust: exact; -webkit-print-color-adjust: exact; }
}
)css";

std::string escaped(std::string_view words) {
  return html::text(words).str();
}

/// `name` may carry attributes behind a space.
std::string element(std::string_view name, std::string_view inside) {
  const std::string_view tag = name.substr(0, name.find(' '));
  std::string out = "<";
  out.append(name).append(">").append(inside).append("</").append(tag).append(">");
  return out;
}

std::string party(std::string_view heading, const std::string& name, const std::vector<std::string>& lines) {
  std::string inside = element("span class=\"name\"", escaped(name));
  for (const std::string& line : lines)
    inside += "<br>\n" + escaped(line);
  return element("div", element("h2", heading) + "\n" + element("address", inside)) + "\n";
}

/// "7.75 h at 28.00, VAT 20 %": what of it does not go without saying.
std::string parts_of(const account::Charge& charge, bool with_tax) {
  std::string words;
  if (const std::string quantity = quantity_words(charge); !quantity.empty())
    words = quantity + " at " + amount_text(charge.unit_price);
  if (const std::string off = discount_words(charge); !off.empty())
    words += (words.empty() ? "" : ", ") + off;
  if (!with_tax) return words;
  return words + (words.empty() ? "" : ", ") + account::tax_words(charge.tax);
}

std::string row(std::string_view name, const std::string& heading, const base::Money& amount) {
  return element(name, element("th scope=\"row\"", heading) + element("td", escaped(amount_text(amount)))) +
         "\n";
}

std::string bill(const account::Invoice& invoice) {
  const std::string head = element("th scope=\"col\"", "Work and materials") +
                           element("th scope=\"col\" class=\"n\"", escaped(invoice.net.currency().code()));
  std::string lines;
  for (const account::InvoiceLine& line : invoice.lines) {
    std::string heading = escaped(line.charge.text);
    if (const std::string parts = parts_of(line.charge, invoice.taxes.size() > 1); !parts.empty())
      heading += " " + element("span class=\"part\"", escaped(parts));
    lines += row("tr", heading, line.net);
  }
  std::string sums;
  for (const SumRow& sum : sum_rows(invoice))
    sums += row(sum.last ? "tr class=\"pay\"" : "tr", escaped(sum.words), sum.amount);
  return element("table", "\n" + element("thead", element("tr", head)) + "\n" +
                              element("tbody", "\n" + lines) + "\n" + element("tfoot", "\n" + sums) + "\n") +
         "\n";
}

}  // namespace

std::string invoice_html(const account::Invoice& invoice) {
  const std::string title = invoice_title(invoice);
  std::string out =
      "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
      "<meta name=\"format-detection\" content=\"telephone=no\">\n";
  out += element("title", escaped(title + ", " + invoice.title)) + "\n" + element("style", style) +
         "\n</head>\n<body>\n<main>\n";
  out += "<header>\n" + element("h1", escaped(title)) + "\n" +
         element("p", escaped(long_date(invoice.dates.issued))) + "\n</header>\n";
  if (!invoice.number.number) {
    out += element("p class=\"draft\"", "To be looked through. It holds when it is given its number.") + "\n";
  }
  out += "<div class=\"who\">\n" + party("From", invoice.seller.name, seller_lines(invoice)) +
         party("To", invoice.buyer.name, buyer_lines(invoice)) + "</div>\n";
  if (const std::string words = credited_words(invoice); !words.empty())
    out += element("p", escaped(words)) + "\n";
  out += element("p class=\"name\"", escaped(invoice.title)) + "\n";
  if (const std::string days = work_days(invoice.dates); !days.empty())
    out += element("p", escaped("Work done " + days)) + "\n";
  out += bill(invoice) + "<footer>\n";
  for (const std::string& words : closing_words(invoice))
    out += element("p", escaped(words)) + "\n";
  return out + "</footer>\n</main>\n</body>\n</html>\n";
}

}  // namespace weatherstruck::render
