#include "weatherstruck/render/invoice_html.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "render/bill_support.h"

namespace weatherstruck::render {
namespace {

using testing::HasSubstr;
using testing::Not;
using testing::StartsWith;

std::size_t count_of(const std::string& text, const std::string& what) {
  std::size_t count = 0;
  for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + 1))
    ++count;
  return count;
}

TEST(InvoiceHtml, SaysWhatTheTextSays) {
  const std::string page = invoice_html(sample::mason_bill());
  EXPECT_THAT(page, StartsWith("<!DOCTYPE html>\n<html lang=\"en\">"));
  EXPECT_THAT(page, HasSubstr("<h1>Invoice 2026-7</h1>"));
  EXPECT_THAT(page, HasSubstr("13 February 2026"));
  EXPECT_THAT(page, HasSubstr("<span class=\"part\">7.75&nbsp;h at 28.00</span></th><td>217.00</td>"));
  EXPECT_THAT(page, HasSubstr("VAT 20&nbsp;% on 2,062.78</th><td>412.56</td>"));
  EXPECT_THAT(page, HasSubstr("<tr class=\"pay\"><th scope=\"row\">To pay, GBP</th><td>1,975.34</td></tr>"));
  EXPECT_THAT(page, HasSubstr("Please pay by 27 February 2026."));
  EXPECT_THAT(page, Not(HasSubstr("class=\"draft\"")));
}

TEST(InvoiceHtml, ADraftSaysThatItIsOne) {
  const std::string page = invoice_html(sample::mason_bill(account::tax_at(2000), std::nullopt));
  EXPECT_THAT(page, HasSubstr("<h1>Draft of an invoice, not issued</h1>"));
  EXPECT_THAT(page, HasSubstr("class=\"draft\""));
}

TEST(InvoiceHtml, AsksNothingOfAnyOther) {
  const std::string page = invoice_html(sample::mason_bill());
  for (const char* way :
       {"http", "//", "src=", "href=", "url(", "@import", "<script", "<link", "<img", "<form"})
    EXPECT_THAT(page, Not(HasSubstr(way))) << way;
}

TEST(InvoiceHtml, WhatCameFromOutsideIsEscaped) {
  account::Invoice invoice = sample::mason_bill();
  const std::string nasty = "<script>alert('x')</script> & \"co\"\x01";
  invoice.title = nasty;
  invoice.seller = {nasty, nasty, nasty, nasty, nasty};
  invoice.buyer = {nasty, nasty};
  invoice.lines[0].charge.text = nasty;
  for (account::TaxTotal& total : invoice.taxes)
    total.tax = {account::TaxCategory::exempt, 0, nasty, nasty};
  const std::string page = invoice_html(invoice);
  EXPECT_THAT(page, Not(HasSubstr("<script")));
  EXPECT_THAT(page, Not(HasSubstr("& ")));
  EXPECT_THAT(page, Not(HasSubstr("\x01")));
  EXPECT_THAT(page, HasSubstr("&lt;script&gt;alert(&#39;x&#39;)&lt;/script&gt; &amp; &quot;co&quot;"));
}

TEST(InvoiceHtml, BytesThatAreNoTextDoNotReachThePage) {
  account::Invoice invoice = sample::mason_bill();
  invoice.title = "wall \xFF\xC3";
  EXPECT_THAT(invoice_html(invoice), HasSubstr("wall ??"));
  invoice.title = "Wände über 5 %";
  EXPECT_THAT(invoice_html(invoice), HasSubstr("Wände über 5&nbsp;%"));
}

TEST(InvoiceHtml, EveryElementIsClosed) {
  const std::string page = invoice_html(sample::mason_bill());
  for (const std::string name :
       {"html", "head", "body", "main",    "header", "footer", "table", "thead", "tbody", "tfoot", "tr",
        "th",   "td",   "div",  "address", "span",   "h1",     "h2",    "p",     "style", "title"}) {
    const std::size_t opened = count_of(page, "<" + name + ">") + count_of(page, "<" + name + " ");
    EXPECT_EQ(opened, count_of(page, "</" + name + ">")) << name;
    EXPECT_GE(opened, 1U) << name;
  }
}

TEST(InvoiceHtml, IsSmallAndPrintsOnA4) {
  const std::string page = invoice_html(sample::mason_bill());
  EXPECT_LT(page.size(), 10'000U);
  EXPECT_THAT(page, HasSubstr("@page { size: A4"));
  EXPECT_THAT(page, HasSubstr("width=device-width"));
}

}  // namespace
}  // namespace weatherstruck::render
