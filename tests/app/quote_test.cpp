// From the offer to the deposit and the invoice for the work, as its user gives the commands.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "app/machine.h"
#include "app/run_binary.h"
#include "weatherstruck/files/json.h"

namespace weatherstruck::app {
namespace {

using testing::HasSubstr;
using testing::Not;

std::string text_at(const std::string& path) {
  std::ifstream file(path);
  std::ostringstream out;
  out << file.rdbuf();
  return out.str();
}

class Quoting : public testing::Test {
 protected:
  void SetUp() override {
    const std::string answers = text_at(in_source("fixtures/demo/me-answers.txt"));
    EXPECT_EQ(home_.say({"me", "--all", "--now", "2026-02-01T19:00"}, answers).code, ExitCode::ok);
    EXPECT_EQ(home_.say({"job", "add", in_source("fixtures/demo/job.json")}).code, ExitCode::ok);
  }
  /// The command with what the job's materials cost, and its moment.
  [[nodiscard]] Ended say(std::vector<std::string> words, bool priced = true) const {
    if (priced) {
      for (const char* price :
           {"facing-brick=845.50/1000", "engineering-brick=980/1000", "cement=6.40", "building-sand=58",
            "sharp-sand=58", "coarse-aggregate=58", "sub-base=49", "flag-450=7.20", "membrane=95/100",
            "dpc=14", "land-drain=2.10/1", "plate-100x50=11.40", "plate-strap=3.20", "fixings=9.50"}) {
        words.emplace_back("--price");
        words.emplace_back(price);
      }
      words.insert(words.end(), {"--distance", "190"});
    }
    words.insert(words.end(), {"--now", "2026-02-01T20:00"});
    return home_.say(words);
  }
  [[nodiscard]] files::Json json(const std::vector<std::string>& words, bool priced = true) const {
    std::vector<std::string> all = words;
    all.emplace_back("--json");
    return files::Json::parse(say(all, priced).out);
  }

  Machine home_;
  const std::string job_ = "valley-shelter";
};

TEST_F(Quoting, SaysWhatIsBuiltWhatItCostsAndWhatIsNotInIt) {
  const Ended quote =
      say({"quote", job_, "--deposit", "25%", "--good-for", "14", "--without", "power and water"});
  EXPECT_EQ(quote.code, ExitCode::ok) << quote.err;
  for (const char* part :
       {"Quotation", "1 February 2026", "What is built", "Outside 3 x 1.8 m", "Labour: the shelter",
        "Cement, 23 bags", "gravel in place of flags, and 120.00 GBP come off", "Power and water",
        "Good until 15 February 2026.", "an offer, not an invoice", "A deposit of",
        "quote valley-shelter --agreed"})
    EXPECT_THAT(quote.out, HasSubstr(part));
  EXPECT_THAT(quote.out, Not(HasSubstr("For yourself")));
  EXPECT_THAT(quote.out, Not(HasSubstr("To pay")));
}

TEST_F(Quoting, AsksForPricesAndWritesNoPageWithoutThem) {
  const std::string path = home_.in_folder("quote.html");
  const Ended open = say({"quote", job_, "--html", path}, false);
  EXPECT_EQ(open.code, ExitCode::invalid);
  EXPECT_THAT(open.err, testing::AllOf(HasSubstr("cement=AMOUNT"), HasSubstr("a bag of 25 kg")));
  EXPECT_EQ(text_at(path), "");
  EXPECT_THAT(say({"quote", job_}, false).out, HasSubstr("To be answered first"));
  EXPECT_EQ(say({"quote", job_, "--html", path, "--leave-open"}, false).code, ExitCode::ok);
  EXPECT_THAT(text_at(path), HasSubstr("Not priced here: facing bricks"));
  EXPECT_EQ(say({"quote", job_, "--price", "gold=1"}).code, ExitCode::usage);
  EXPECT_EQ(say({"quote", job_, "--price", "cement=x"}).code, ExitCode::usage);
  EXPECT_EQ(say({"quote", job_, "--price", "cement=6/0"}).code, ExitCode::usage);
  EXPECT_EQ(say({"quote", job_, "--good-for", "0"}).code, ExitCode::usage);
  EXPECT_EQ(say({"quote", job_, "--distance", "far"}, false).code, ExitCode::usage);
  EXPECT_EQ(say({"quote", job_, "--deposit", "101%"}).code, ExitCode::usage);
}

TEST_F(Quoting, WhatIsSaidOnceIsKeptWhereHeWantsIt) {
  EXPECT_EQ(say({"quote", job_, "--keep", "--deposit", "30%", "--without", "Power and water"}).code,
            ExitCode::ok);
  const Ended again = say({"quote", job_, "--distance", "190"}, false);
  EXPECT_THAT(again.out, Not(HasSubstr("To be answered first")));
  EXPECT_THAT(again.out, HasSubstr("Power and water"));
  EXPECT_THAT(again.out, HasSubstr("A deposit of"));
}

// What is offered is agreed, a deposit of it billed as it was asked for, and the work billed less that. Sums
// are compared among each other: the price hangs on norms that may be bettered.
TEST_F(Quoting, TheOfferTheDepositAndTheInvoiceComeToTheSame) {
  const files::Json offer = json({"quote", job_, "--deposit", "25%", "--mine"});
  EXPECT_EQ(offer["mine"]["reckoned"], offer["net"]);
  EXPECT_EQ(say({"quote", job_, "--agreed"}).code, ExitCode::failed) << "nobody said yes";
  const Ended agreed = say({"quote", job_, "--agreed", "--yes"});
  EXPECT_EQ(agreed.code, ExitCode::ok) << agreed.err;
  EXPECT_EQ(say({"quote", job_, "--agreed", "--yes"}).code, ExitCode::invalid) << "it is agreed already";
  const files::Json fixed = json({"quote", job_, "--deposit", "25%", "--mine"});
  EXPECT_EQ(fixed["total"], offer["total"]);
  EXPECT_EQ(fixed["deposit_asked"], offer["deposit_asked"]);
  EXPECT_EQ(fixed["lines"].size(), 1U);
  EXPECT_EQ(fixed["mine"]["agreed"], offer["net"]);
  EXPECT_FALSE(json({"quote", job_}).contains("mine"));

  const std::vector<std::string> ask{"invoice", job_, "--deposit", "25%"};
  EXPECT_THAT(say(ask, false).out, HasSubstr("Draft of a deposit invoice, not issued"));
  const files::Json deposit = json({"invoice", job_, "--deposit", "25%", "--issue", "--yes"}, false);
  EXPECT_EQ(deposit["total"], offer["deposit_asked"]);
  EXPECT_EQ(deposit["number"], 1);
  const std::string bill = home_.in_folder("deposit.xml");
  EXPECT_EQ(say({"invoice", job_, "--show", "1", "--ubl", bill, "--with", "seller/country=GB", "--with",
                 "buyer/country=GB", "--with", "seller/registration=00000000"},
                false)
                .code,
            ExitCode::ok);
  EXPECT_THAT(text_at(bill), HasSubstr("<cbc:InvoiceTypeCode>386</cbc:InvoiceTypeCode>"));
  const files::Json work = json({"invoice", job_, "--issue", "--yes", "--leave-open"}, false);
  EXPECT_EQ(work["number"], 2);
  EXPECT_EQ(work["set_off"][0]["number"], 1);
  EXPECT_THAT(say({"credit", job_, "1", "--reason", "called off"}, false).err,
              HasSubstr("Take invoice 2026-2 back first"));
}

TEST_F(Quoting, ADepositStandsAloneAndNeedsAPrice) {
  EXPECT_EQ(say({"invoice", job_, "--deposit", "25%", "--hours", "a=1"}, false).code, ExitCode::usage);
  EXPECT_EQ(say({"invoice", job_, "--deposit", "a lot"}, false).code, ExitCode::usage);
  EXPECT_THAT(say({"invoice", job_, "--deposit", "25%"}, false).err, HasSubstr("a fixed price or stages"));
  EXPECT_EQ(say({"invoice", job_, "--deposit", "600"}, false).code, ExitCode::ok);
}

TEST_F(Quoting, AFileIsOfferedTooButKeepsNoPrice) {
  const std::string file = in_source("fixtures/demo/job.json");
  EXPECT_EQ(say({"quote", file}).code, ExitCode::ok);
  EXPECT_EQ(say({"quote", file, "--agreed", "--yes"}).code, ExitCode::usage);
}

TEST(QuoteWithoutRates, SaysWhatToDo) {
  const Machine home;
  const Ended quote = home.say({"quote", in_source("fixtures/demo/job.json")});
  EXPECT_EQ(quote.code, ExitCode::invalid);
  EXPECT_THAT(quote.err, HasSubstr("weatherstruck me"));
}

}  // namespace
}  // namespace weatherstruck::app
