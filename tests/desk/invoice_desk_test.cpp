#include "weatherstruck/desk/invoice_desk.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "account/bill_support.h"
#include "record/scratch.h"
#include "weatherstruck/files/invoice_json.h"

namespace weatherstruck::desk {
namespace {

using account::charges_by;
using account::gbp;
using record::at_minute;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using works::Begin;
using works::Done;
using works::entry;
using works::Extra;
using works::feb;
using works::Whole;

class Billed : public testing::Test {
 protected:
  record::Scratch scratch_;
  record::Store store_{scratch_.file()};
  record::JobId id_ = record::add_wall(store_);
  works::Job job_ = works::demo_job();
  works::TaskList tasks_ = works::small_list();
  works::Progress progress_ = works::fold({});

  static account::Terms priced() {
    account::Terms terms{account::usual_rates()};
    terms.fixed_price = gbp(185000);
    terms.materials = account::Cover::in_the_price;
    terms.travel = account::Cover::in_the_price;
    terms.deposit = gbp(50000);
    return terms;
  }
  void log(const std::vector<works::Entry>& entries) { progress_ = works::fold(entries); }
  void log_all() { log(done()); }
  static std::vector<works::Entry> done() {
    return {entry("a", feb(10, 8), Begin{"dig"}), entry("b", feb(10, 12), Done{"dig", Whole{}}),
            entry("c", feb(11, 8), Begin{"lay"}), entry("d", feb(11, 16), Done{"lay", Whole{}})};
  }
  [[nodiscard]] BillRequest request(account::Terms terms = priced()) const {
    return {job_,
            tasks_,
            progress_,
            4,
            std::move(terms),
            account::a_seller(),
            buyer_of(job_),
            "2026",
            account::day_of(2026, 2, 13),
            false};
  }
  static std::vector<std::string> refusal(const std::function<void()>& work) {
    try {
      work();
    } catch (const base::InputError& error) {
      return account::codes_of(error.faults());
    }
    return {"nothing was thrown"};
  }
};

TEST_F(Billed, ADraftWritesNothing) {
  log_all();
  const Draft draft = draft_invoice(store_, id_, request());
  ASSERT_TRUE(draft.invoice);
  EXPECT_FALSE(draft.invoice->number.number);
  EXPECT_THAT(draft.charges.questions, IsEmpty());
  EXPECT_THAT(invoices_of(store_, id_), IsEmpty());
}

// 1850.00 and 20 % = 2220.00; less 500.00 = 1720.00. Fourteen days from the 13th are the 27th; the book knows
// of work from the 10th to the 11th.
TEST_F(Billed, IsIssuedWithTheNextNumberAndReadsBackTheSame) {
  log_all();
  const Issued issued = issue_invoice(store_, id_, "first", request(), at_minute(0));
  EXPECT_FALSE(issued.repeated);
  EXPECT_EQ(issued.invoice.number, (account::InvoiceNumber{"2026", 1}));
  EXPECT_EQ(issued.invoice.due, gbp(172000));
  EXPECT_EQ(issued.invoice.dates,
            (account::InvoiceDates{account::day_of(2026, 2, 13), account::day_of(2026, 2, 27),
                                   account::day_of(2026, 2, 10), account::day_of(2026, 2, 11)}));
  EXPECT_EQ(show_invoice(store_, "2026", 1), issued.invoice);
  EXPECT_EQ(store_.invoice("2026", 1)->bytes, files::write_invoice(issued.invoice));
  EXPECT_EQ(store_.invoice("2026", 1)->book_revision, 4);
}

TEST_F(Billed, WhatIsAskedForTwiceIsIssuedOnce) {
  log_all();
  const Issued first = issue_invoice(store_, id_, "first", request(), at_minute(0));
  const Issued again = issue_invoice(store_, id_, "first", request(), at_minute(9));
  EXPECT_TRUE(again.repeated);
  EXPECT_EQ(again.invoice, first.invoice);
  EXPECT_EQ(invoices_of(store_, id_).size(), 1U);
}

TEST_F(Billed, NothingIsBilledTwiceUnderAnotherKey) {
  log_all();
  issue_invoice(store_, id_, "first", request(), at_minute(0));
  EXPECT_THAT(refusal([&] { issue_invoice(store_, id_, "second", request(), at_minute(9)); }),
              ElementsAre("nothing-to-bill lines"));
  EXPECT_FALSE(draft_invoice(store_, id_, request()).invoice);
}

// Stage by stage: 600.00 and 20 % = 720.00, of which the deposit takes 500.00; then 1250.00 and 20 % =
// 1500.00, the deposit used up.
TEST_F(Billed, ALaterInvoiceTakesWhatIsNewAndTheDepositOnce) {
  account::Terms terms = priced();
  terms.stages = {{"Groundwork", gbp(60000), {"dig"}}, {"Brickwork", gbp(125000), {"lay"}}};
  log({done()[0], done()[1]});
  const Issued first = issue_invoice(store_, id_, "first", request(terms), at_minute(0));
  EXPECT_EQ(first.invoice.deposit, gbp(50000));
  EXPECT_EQ(first.invoice.due, gbp(22000));
  log_all();
  const Issued second = issue_invoice(store_, id_, "second", request(terms), at_minute(9));
  EXPECT_EQ(second.invoice.number.number, 2);
  ASSERT_EQ(second.invoice.lines.size(), 1U);
  EXPECT_EQ(second.invoice.lines[0].charge.text, "Brickwork");
  EXPECT_EQ(second.invoice.deposit, gbp(0));
  EXPECT_EQ(second.invoice.due, gbp(150000));
}

TEST_F(Billed, OpenQuestionsHoldItBackUnlessLeftOpen) {
  std::vector<works::Entry> book = done();
  book.push_back(entry("e", feb(11, 9), Extra{"a drain", "", gbp(4000)}));
  log(book);
  EXPECT_THAT(refusal([&] { issue_invoice(store_, id_, "first", request(), at_minute(0)); }),
              ElementsAre("open-question extra/2026-02-11T09:00:00Z/a drain"));
  EXPECT_THAT(invoices_of(store_, id_), IsEmpty());
  BillRequest open = request();
  open.leave_open = true;
  const Issued first = issue_invoice(store_, id_, "first", open, at_minute(1));
  EXPECT_EQ(first.invoice.number.number, 1) << "the refusal used up no number";
  EXPECT_EQ(first.charges.questions.size(), 1U);
  // Answered in the book, it comes on the next one.
  book.back() = entry("e", feb(11, 9), Extra{"a drain", "Marged", gbp(4000)});
  log(book);
  EXPECT_EQ(issue_invoice(store_, id_, "second", request(), at_minute(2)).invoice.net, gbp(4000));
}

TEST_F(Billed, FaultsOfTermsAndPartiesUseNoNumber) {
  log_all();
  account::Terms terms = priced();
  terms.rates.payment_days = -1;
  EXPECT_THAT(refusal([&] { issue_invoice(store_, id_, "first", request(terms), at_minute(0)); }),
              ElementsAre("out-of-range terms/rates/payment-days"));
  job_.customer.address.clear();
  EXPECT_THAT(refusal([&] { issue_invoice(store_, id_, "first", request(), at_minute(0)); }),
              ElementsAre("missing buyer/address (BR-10)"));
  // What does not read back is not kept.
  job_.customer.address = "Nant-y-Glaw";
  BillRequest odd = request();
  odd.seller.pay_to = "line one\nline two";
  EXPECT_THAT(refusal([&] { issue_invoice(store_, id_, "first", odd, at_minute(0)); }),
              ElementsAre("bad-text /seller/pay_to"));
  EXPECT_EQ(issue_invoice(store_, id_, "first", request(), at_minute(1)).invoice.number.number, 1);
}

TEST_F(Billed, AnotherCurrencyForTheSameJobIsRefused) {
  log_all();
  issue_invoice(store_, id_, "first", request(), at_minute(0));
  account::Terms terms{account::Rates{account::euros()}};
  terms.rates.tax = account::tax_at(2000);
  terms.by_the_hour = true;
  EXPECT_THAT(refusal([&] { issue_invoice(store_, id_, "second", request(terms), at_minute(1)); }),
              ElementsAre("wrong-currency rates"));
}

TEST_F(Billed, NumbersAreCountedInEachSeriesAndOverAllJobs) {
  log_all();
  const record::JobId other = store_.add_job("other", R"({"name":"other"})", 1, at_minute(0));
  EXPECT_EQ(issue_invoice(store_, id_, "k", request(), at_minute(1)).invoice.number.number, 1);
  EXPECT_EQ(issue_invoice(store_, other, "k", request(), at_minute(2)).invoice.number.number, 2);
  const record::JobId third = store_.add_job("third", R"({"name":"third"})", 1, at_minute(3));
  BillRequest next_year = request();
  next_year.series = "2027";
  EXPECT_EQ(issue_invoice(store_, third, "k", next_year, at_minute(4)).invoice.number.number, 1);
}

CreditRequest credit_of(std::int64_t number) {
  return {"2026", number, {}, "wrong customer", "2026", account::day_of(2026, 3, 2), false};
}

// 1850.00 and 20 % = 2220.00, deposit 500.00, due 1720.00. The note has the next number, the work may be
// billed again, and the deposit is there for it.
TEST_F(Billed, ACreditNoteTakesItBackUnderTheNextNumber) {
  log_all();
  const Issued invoice = issue_invoice(store_, id_, "first", request(), at_minute(0));
  const std::string kept = store_.invoice("2026", 1)->bytes;
  EXPECT_FALSE(draft_credit(store_, id_, credit_of(1)).number.number);
  EXPECT_EQ(invoices_of(store_, id_).size(), 1U);
  const Issued note = issue_credit(store_, id_, "credit", credit_of(1), at_minute(5));
  EXPECT_EQ(note.invoice.number, (account::InvoiceNumber{"2026", 2}));
  EXPECT_EQ(note.invoice.due, gbp(172000));
  EXPECT_EQ(note.invoice.credited->number, invoice.invoice.number);
  EXPECT_EQ(store_.invoice("2026", 1)->bytes, kept) << "the invoice itself stays as it is";
  EXPECT_EQ(show_invoice(store_, "2026", 2), note.invoice);
  EXPECT_EQ(store_.invoice("2026", 2)->bytes, files::write_invoice(note.invoice));
  EXPECT_TRUE(issue_credit(store_, id_, "credit", credit_of(1), at_minute(6)).repeated);
  EXPECT_THAT(refusal([&] { issue_credit(store_, id_, "again", credit_of(1), at_minute(7)); }),
              ElementsAre("nothing-left number"));
  const Issued anew = issue_invoice(store_, id_, "anew", request(), at_minute(9));
  EXPECT_EQ(anew.invoice.number.number, 3);
  EXPECT_EQ(anew.invoice.due, gbp(172000));
}

// Of two stages the first is taken back: the next bill has it alone, names no other invoice, and the deposit
// is set against neither twice. Given back for good there is nothing left to bill.
TEST_F(Billed, AStageTakenBackIsBilledAnewAndOneGivenBackIsNot) {
  account::Terms terms = priced();
  terms.stages = {{"Groundwork", gbp(60000), {"dig"}}, {"Brickwork", gbp(125000), {"lay"}}};
  log({done()[0], done()[1]});
  issue_invoice(store_, id_, "first", request(terms), at_minute(0));
  log_all();
  EXPECT_EQ(issue_invoice(store_, id_, "second", request(terms), at_minute(1)).invoice.deposit, gbp(0));
  issue_credit(store_, id_, "credit", credit_of(1), at_minute(2));
  const Issued anew = issue_invoice(store_, id_, "anew", request(terms), at_minute(3));
  ASSERT_EQ(anew.invoice.lines.size(), 1U);
  EXPECT_EQ(anew.invoice.lines[0].charge.text, "Groundwork");
  EXPECT_EQ(anew.invoice.deposit, gbp(50000));
  EXPECT_THAT(account::kept_off(anew.charges), testing::Contains("Brickwork: billed on invoice 2026-2"));
  CreditRequest gift = credit_of(4);
  gift.for_good = true;
  const Issued given = issue_credit(store_, id_, "gift", gift, at_minute(4));
  EXPECT_TRUE(show_invoice(store_, "2026", 5).credited->for_good);
  EXPECT_EQ(given.invoice.deposit, gbp(50000)) << "the money is his still, and waits";
  EXPECT_THAT(refusal([&] { issue_invoice(store_, id_, "more", request(terms), at_minute(5)); }),
              ElementsAre("nothing-to-bill lines"));
}

TEST_F(Billed, ACreditNoteIsForAnInvoiceOfItsJob) {
  log_all();
  issue_invoice(store_, id_, "first", request(), at_minute(0));
  const record::JobId other = store_.add_job("other", R"({"name":"other"})", 1, at_minute(0));
  EXPECT_THAT(refusal([&] { issue_credit(store_, other, "c", credit_of(1), at_minute(1)); }),
              ElementsAre("of-another-job number"));
  EXPECT_THAT(refusal([&] { issue_credit(store_, id_, "c", credit_of(9), at_minute(1)); }),
              ElementsAre("no-such-invoice number"));
  CreditRequest silent = credit_of(1);
  silent.reason.clear();
  EXPECT_THAT(refusal([&] { issue_credit(store_, id_, "c", silent, at_minute(1)); }),
              ElementsAre("missing credited/reason"));
  EXPECT_EQ(issue_credit(store_, id_, "c", credit_of(1), at_minute(2)).invoice.number.number, 2)
      << "the refusals used up no number";
}

// 100.00 off once: 60.00 fit on the first stage's bill of 60.00, 40.00 are left for the second.
TEST_F(Billed, AnAmountTakenOffWaitsForTheNextBillWhereItDoesNotFit) {
  account::Terms terms = priced();
  terms.deposit = gbp(0);
  terms.fixed_price = gbp(31000);
  terms.stages = {{"Groundwork", gbp(6000), {"dig"}}, {"Brickwork", gbp(25000), {"lay"}}};
  terms.off = account::Off{0, gbp(10000), "agreed"};
  log({done()[0], done()[1]});
  EXPECT_EQ(issue_invoice(store_, id_, "first", request(terms), at_minute(0)).invoice.net, gbp(0));
  log_all();
  EXPECT_EQ(issue_invoice(store_, id_, "second", request(terms), at_minute(1)).invoice.net, gbp(21000));
}

TEST_F(Billed, WhatElectronicInvoicesWantComesFromTheJobAndFromHim) {
  job_.customer = {"Marged", "Nant-y-Glaw", "Brecon", "LD3", "GB", "GB 1", "2", "ref", "A-17"};
  const account::Buyer buyer = buyer_of(job_);
  EXPECT_EQ(buyer,
            (account::Buyer{"Marged", "Nant-y-Glaw", "Brecon", "LD3", "GB", "GB 1", "2", "ref", "A-17"}));
  works::Me me = works::usual_me(base::Zone::fixed("UTC", std::chrono::seconds(0)));
  me.name = "Ifan";
  me.country = "GB";
  me.iban = "GB82";
  me.registration = "7";
  const account::Seller seller = seller_of(me);
  EXPECT_EQ(seller.name, "Ifan");
  EXPECT_EQ(seller.country + seller.iban + seller.registration, "GBGB827");
}

// A quarter of 1850.00 is 462.50, with its tax 555.00. The work is then 1387.50 before tax, with it 1665.00;
// both together come to the 2220.00 of the whole.
TEST_F(Billed, ADepositIsBilledBeforeTheWorkAndTakenOffItsInvoice) {
  account::Terms terms = priced();
  terms.deposit.reset();
  terms.rates.usual_deposit = 2500;
  BillRequest ask = request(terms);
  ask.deposit = account::DepositAsk{2500, {}};
  EXPECT_FALSE(draft_invoice(store_, id_, ask).invoice->number.number);
  const Issued deposit = issue_invoice(store_, id_, "deposit", ask, at_minute(0));
  EXPECT_EQ(deposit.invoice.number, (account::InvoiceNumber{"2026", 1}));
  EXPECT_EQ(deposit.invoice.due, gbp(55500));
  EXPECT_FALSE(deposit.invoice.dates.work_from) << "nothing was done yet";
  log_all();
  const Issued work = issue_invoice(store_, id_, "work", request(terms), at_minute(1));
  EXPECT_EQ(work.invoice.number.number, 2) << "one series without a gap";
  EXPECT_EQ(work.invoice.due, gbp(166500));
  EXPECT_EQ(work.invoice.tax.minor() + deposit.invoice.tax.minor(), 37000);
  EXPECT_EQ(show_invoice(store_, "2026", 2), work.invoice);
  EXPECT_THAT(refusal([&] { issue_invoice(store_, id_, "more", request(terms), at_minute(2)); }),
              ElementsAre("nothing-to-bill lines"));
  ask.deposit->percent = 8000;
  EXPECT_THAT(refusal([&] { issue_invoice(store_, id_, "again", ask, at_minute(3)); }),
              ElementsAre("over-the-price deposit"));
}

// Over two stages of 600.00 and 1250.00: 1000.00 go off the first as far as its 600.00, the rest off the
// second.
TEST_F(Billed, ADepositLargerThanAStageWaitsForTheNext) {
  account::Terms terms = priced();
  terms.deposit.reset();
  terms.stages = {{"Groundwork", gbp(60000), {"dig"}}, {"Brickwork", gbp(125000), {"lay"}}};
  BillRequest ask = request(terms);
  ask.deposit = account::DepositAsk{0, gbp(120000)};
  issue_invoice(store_, id_, "deposit", ask, at_minute(0));
  log({done()[0], done()[1]});
  EXPECT_EQ(issue_invoice(store_, id_, "first", request(terms), at_minute(1)).invoice.net, gbp(0));
  log_all();
  const Issued second = issue_invoice(store_, id_, "second", request(terms), at_minute(2));
  EXPECT_EQ(second.invoice.net, gbp(85000));
  // Taken back, the first gives its share of the deposit to the next bill.
  issue_credit(store_, id_, "credit", credit_of(2), at_minute(3));
  const Issued anew = issue_invoice(store_, id_, "anew", request(terms), at_minute(4));
  EXPECT_EQ(anew.invoice.lines.size(), 2U);
  EXPECT_EQ(anew.invoice.net, gbp(0));
}

TEST_F(Billed, ADepositIsTakenBackWhileNoInvoiceHasTakenItOff) {
  account::Terms terms = priced();
  terms.deposit.reset();
  BillRequest ask = request(terms);
  ask.deposit = account::DepositAsk{2500, {}};
  issue_invoice(store_, id_, "deposit", ask, at_minute(0));
  log_all();
  issue_invoice(store_, id_, "work", request(terms), at_minute(1));
  EXPECT_THAT(refusal([&] { issue_credit(store_, id_, "c", credit_of(1), at_minute(2)); }),
              ElementsAre("set-off-already number"));
  issue_credit(store_, id_, "whole", credit_of(2), at_minute(3));
  const Issued back = issue_credit(store_, id_, "c", credit_of(1), at_minute(4));
  EXPECT_EQ(back.invoice.number.number, 4);
  EXPECT_EQ(back.invoice.due, gbp(55500));
  const Issued anew = issue_invoice(store_, id_, "anew", request(terms), at_minute(5));
  EXPECT_EQ(anew.invoice.due, gbp(222000)) << "no deposit is left to take off";
}

TEST_F(Billed, OneThatWasNeverIssuedIsNamed) {
  EXPECT_THAT(refusal([&] { (void)show_invoice(store_, "2026", 9); }), ElementsAre("no-such-invoice number"));
}

}  // namespace
}  // namespace weatherstruck::desk
