#include "weatherstruck/files/invoice_json.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "files/ubl_samples.h"
#include "render/bill_support.h"

namespace weatherstruck::files {
namespace {

using render::sample::charge;
using render::sample::mason_bill;
using render::sample::mason_charges;
using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;

std::vector<std::string> faults_read(const std::string& text) {
  try {
    (void)read_invoice(text, "invoice 2026-7");
  } catch (const base::InputError& error) {
    EXPECT_EQ(error.source(), "invoice 2026-7");
    std::vector<std::string> codes;
    for (const base::Fault& fault : error.faults())
      codes.push_back(fault.code + " " + fault.place);
    return codes;
  }
  return {};
}

std::string with(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  EXPECT_NE(at, std::string::npos) << from;
  return at == std::string::npos ? text : text.replace(at, from.size(), to);
}

// The bill worked by hand in tests/account/invoice_test.cpp. These bytes are what records hold: a change here
// is a change of the schema.
TEST(InvoiceJson, BytesAreTheseForEver) {
  account::Charges charges = mason_charges(account::tax_at(2000));
  charges.lines = {
      charge("Travel", 164500, account::Unit::mile, 45, account::tax_at(1750)),
      charge("Gravel in place of flags: path", -1000, account::Unit::each, 1000, account::tax_at(1750))};
  const account::Invoice base = mason_bill();
  // 164.5 x 0.45 = 74.025, to 74.03; less 10.00 = 64.03; 17.5 % = 11.20525
  const account::Invoice invoice =
      account::make_invoice(charges, "A wall", base.seller, base.buyer, base.number, base.dates);
  EXPECT_EQ(write_invoice(invoice), R"json({
  "schema": "weatherstruck/invoice",
  "version": 1,
  "series": "2026",
  "number": 7,
  "issued": "2026-02-13",
  "pay_by": "2026-02-27",
  "work_from": "2026-02-09",
  "work_to": "2026-02-12",
  "title": "A wall",
  "seller": {
    "name": "Ifan Treharne, mason",
    "address": "3 Lime Yard, Brecon, LD3 0XX",
    "contact": "ifan@treharne.example",
    "tax_number": "GB 123 4567 89",
    "pay_to": "Bank transfer: sort code 00-00-00, account 00000000."
  },
  "buyer": {
    "name": "Marged Penhallow-Rees",
    "address": "Ty'r Odyn, Nant-y-Glaw"
  },
  "lines": [
    {
      "key": "Travel",
      "kind": "price",
      "text": "Travel",
      "quantity": 164.5,
      "unit": "mile",
      "price": "0.45 GBP",
      "tax": {
        "category": "S",
        "percent": 17.5
      },
      "net": "74.03 GBP"
    },
    {
      "key": "Gravel in place of flags: path",
      "kind": "price",
      "text": "Gravel in place of flags: path",
      "quantity": -1,
      "unit": "each",
      "price": "10.00 GBP",
      "tax": {
        "category": "S",
        "percent": 17.5
      },
      "net": "-10.00 GBP"
    }
  ],
  "taxes": [
    {
      "category": "S",
      "percent": 17.5,
      "name": "VAT",
      "reason": "",
      "net": "64.03 GBP",
      "amount": "11.21 GBP"
    }
  ],
  "net": "64.03 GBP",
  "tax": "11.21 GBP",
  "total": "75.24 GBP",
  "deposit": "75.24 GBP",
  "due": "0.00 GBP"
}
)json");
}

// What version 2 brought is written where it is said, and nowhere else.
TEST(InvoiceJson, ANewerFactMakesItANewerVersion) {
  account::Invoice invoice = mason_bill();
  EXPECT_EQ(invoice_to_json(invoice)["version"], 1);
  invoice.buyer.country = "GB";
  EXPECT_EQ(invoice_to_json(invoice)["version"], 2);
  EXPECT_EQ(invoice_to_json(invoice)["buyer"]["country"], "GB");
  EXPECT_EQ(read_invoice(write_invoice(invoice), "it"), invoice);
}

TEST(InvoiceJson, OnlyACreditNoteForGoodSaysSo) {
  account::Invoice note = mason_bill();
  note.deposit = render::sample::gbp(0);
  note.due = note.total;
  note.credited = account::Credited{{"2026", 1}, note.dates.issued, "too much"};
  EXPECT_EQ(invoice_to_json(note)["version"], 2);
  EXPECT_FALSE(invoice_to_json(note)["credited"].contains("for_good"));
  note.credited->for_good = true;
  EXPECT_EQ(invoice_to_json(note)["version"], 3);
  EXPECT_EQ(read_invoice(write_invoice(note), "it"), note);
}

TEST(InvoiceJson, DepositsAreWrittenInAVersionOfTheirOwn) {
  const auto& samples = ubl_samples();
  for (std::size_t i = samples.size() - 3; i < samples.size(); ++i)
    EXPECT_EQ(invoice_to_json(samples[i])["version"], 4);
  const Json work = invoice_to_json(samples[samples.size() - 2]);
  EXPECT_EQ(work["set_off"], Json::parse(R"([{"series": "2026", "number": 6, "issued": "2026-02-02"}])"));
  EXPECT_EQ(work["lines"].back()["kind"], "deposit");
  // A line that does not say whose deposit it is is no invoice.
  EXPECT_THAT(faults_read(with(write_invoice(samples[samples.size() - 2]), "\"number\": 6", "\"number\": 5")),
              ElementsAre("missing lines/4/deposit (BR-55)"));
}

TEST(InvoiceJson, WhatIsReadIsWhatWasWritten) {
  for (const account::Invoice& invoice :
       {mason_bill(), mason_bill(account::no_tax("Not registered for VAT.")),
        mason_bill(account::tax_at(0), std::nullopt)}) {
    const std::string bytes = write_invoice(invoice);
    const account::Invoice back = read_invoice(bytes, "it");
    EXPECT_EQ(back, invoice);
    EXPECT_EQ(write_invoice(back), bytes);
  }
}

RC_GTEST_PROP(InvoiceJson, EveryQuantityPriceAndRateComesBack, ()) {
  const base::Currency currency = *base::Currency::from_code(*rc::gen::element("GBP", "JPY", "KWD"));
  account::Charges charges{
      currency, {}, base::Money(*rc::gen::inRange<std::int64_t>(0, 100'000'000), currency), {}, {}};
  for (int i = 0; i < 10; ++i) {
    const auto quantity = *rc::gen::inRange<std::int64_t>(-1'000'000'000, 1'000'000'001);
    const auto price = *rc::gen::inRange<std::int64_t>(0, 100'001);
    const account::Tax tax = account::tax_at(*rc::gen::inRange(0, 10001));
    charges.lines.push_back(
        {"k", account::ChargeKind::extra, "work", quantity, account::Unit::hour, {price, currency}, tax});
  }
  const account::Invoice base = mason_bill();
  const account::Invoice invoice =
      account::make_invoice(charges, "A wall", base.seller, base.buyer, base.number, base.dates);
  const std::string bytes = write_invoice(invoice);
  const account::Invoice back = read_invoice(bytes, "it");
  RC_ASSERT(back == invoice);
  RC_ASSERT(write_invoice(back) == bytes);
}

TEST(InvoiceJson, ASumThatWasTamperedWithIsFound) {
  const std::string good = write_invoice(mason_bill());
  EXPECT_THAT(faults_read(with(good, "\"due\": \"1975.34 GBP\"", "\"due\": \"1975.43 GBP\"")),
              ElementsAre("does-not-add-up due (BR-CO-16)"));
  EXPECT_THAT(faults_read(with(good, "\"net\": \"217.00 GBP\"", "\"net\": \"218.00 GBP\"")),
              Contains("does-not-add-up lines/1/net (BT-131)"));
  EXPECT_THAT(faults_read(with(good, "\"due\": \"1975.34 GBP\"", "\"due\": \"1975.34 EUR\"")),
              ElementsAre("wrong-currency due"));
}

TEST(InvoiceJson, WhatIsNoInvoiceIsRefusedWithItsPlace) {
  const std::string good = write_invoice(mason_bill());
  EXPECT_THAT(faults_read("{"), Contains(HasSubstr("bad-json")));
  EXPECT_THAT(faults_read("[]"), ElementsAre("not-an-invoice /schema"));
  EXPECT_THAT(faults_read(with(good, "weatherstruck/invoice", "weatherstruck/plan")),
              ElementsAre("not-an-invoice /schema"));
  EXPECT_THAT(faults_read(with(good, "\"version\": 1", "\"version\": 5")),
              ElementsAre("unknown-version /version"));
  EXPECT_THAT(faults_read(with(good, "\"1850.00 GBP\"", "\"1850.00\"")),
              Contains("bad-money /lines/0/price"));
  EXPECT_THAT(faults_read(with(good, "2026-02-13", "2026-02-30")), ElementsAre("bad-time /issued"));
  EXPECT_THAT(faults_read(with(good, "\"quantity\": 7.75", "\"quantity\": 7.7501")),
              ElementsAre("out-of-range /lines/1/quantity"));
  EXPECT_THAT(faults_read(with(good, "\"percent\": 20", "\"percent\": 5")),
              ElementsAre("unknown-tax /lines/0/tax"));
  EXPECT_THAT(faults_read(with(good, "\"unit\": \"hour\"", "\"unit\": \"hours\"")),
              ElementsAre("bad-word /lines/1/unit"));
  EXPECT_THAT(faults_read(with(good, "\"title\"", "\"titel\"")), Contains(HasSubstr("unknown-key /titel")));
}

TEST(InvoiceJson, OpenMattersAreLists) {
  account::Charges charges = mason_charges(account::tax_at(2000));
  EXPECT_EQ(open_matters_to_json(charges).dump(), R"({"questions":[],"kept_off":[]})");
  charges.questions = {{"hours", "extra/a", "How many?"}};
  charges.kept_off = {{"travel", "Travel", "in the fixed price"}};
  EXPECT_EQ(open_matters_to_json(charges).dump(),
            R"({"questions":[{"code":"hours","about":"extra/a","text":"How many?"}],)"
            R"("kept_off":[{"key":"travel","text":"Travel","why":"in the fixed price"}]})");
}

}  // namespace
}  // namespace weatherstruck::files
