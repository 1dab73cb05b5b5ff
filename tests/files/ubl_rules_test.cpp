// The business rules of EN 16931-1, each a test under its code, read in the validation rules published for it
// (github.com/ConnectingEurope/eInvoicing-EN16931, ubl/schematron/UBL/EN16931-UBL-model.sch) and written
// again here as XPath 1.0 over what was made. Every rule holds for every sample, and stops to hold where the
// document is spoilt, so that none of them is empty. Of the rules that are about something which is never
// written, it is the absence that is tested.
#include <gtest/gtest.h>

#include <algorithm>
#include <pugixml.hpp>
#include <string>
#include <vector>

#include "files/ubl_samples.h"
#include "weatherstruck/files/invoice_ubl.h"

namespace weatherstruck::files {
namespace {

struct Rule {
  std::string code;
  std::string of;       // the places that it is about
  std::string holds;    // at each of them
  std::string at;       // where it is spoilt, in the first sample that has such a place
  std::string becomes;  // what stands there then; "-": nothing, "+name": with a child of that name
};

const std::string party = "/*/cac:AccountingSupplierParty/cac:Party";
const std::string customer = "/*/cac:AccountingCustomerParty/cac:Party";
const std::string line = "/*/*[name()='cac:InvoiceLine' or name()='cac:CreditNoteLine']";
const std::string off = "/*/cac:AllowanceCharge[cbc:ChargeIndicator='false']";
const std::string line_off = line + "/cac:AllowanceCharge[cbc:ChargeIndicator='false']";
const std::string sub = "/*/cac:TaxTotal/cac:TaxSubtotal";
const std::string sums = "/*/cac:LegalMonetaryTotal";
const std::string his_number = party + "/cac:PartyTaxScheme/cbc:CompanyID";
const std::string their_number = customer + "/cac:PartyTaxScheme/cbc:CompanyID";

/// Whole cents, so that sums of decimals can be compared.
std::string cents(const std::string& number) {
  return "round((" + number + ") * 100)";
}
std::string present(const std::string& path) {
  return "string-length(normalize-space(" + path + ")) > 0";
}

void presence(std::vector<Rule>& rules) {
  const auto needs = [&](const std::string& code, const std::string& of, const std::string& member) {
    rules.push_back({code, of, present(member), of + "/" + member, "-"});
  };
  needs("BR-01", "/*", "cbc:CustomizationID");
  needs("BR-02", "/*", "cbc:ID");
  needs("BR-03", "/*", "cbc:IssueDate");
  rules.push_back({"BR-04", "/*",
                   "(name()='Invoice' and (cbc:InvoiceTypeCode=380 or cbc:InvoiceTypeCode=386)) or "
                   "(name()='CreditNote' and "
                   "cbc:CreditNoteTypeCode=381)",
                   "/*/cbc:CreditNoteTypeCode", "380"});
  needs("BR-05", "/*", "cbc:DocumentCurrencyCode");
  needs("BR-06", party, "cac:PartyLegalEntity/cbc:RegistrationName");
  needs("BR-07", customer, "cac:PartyLegalEntity/cbc:RegistrationName");
  rules.push_back({"BR-08", party, "count(cac:PostalAddress)=1", party + "/cac:PostalAddress", "-"});
  needs("BR-09", party + "/cac:PostalAddress", "cac:Country/cbc:IdentificationCode");
  rules.push_back({"BR-10", customer, "count(cac:PostalAddress)=1", customer + "/cac:PostalAddress", "-"});
  needs("BR-11", customer + "/cac:PostalAddress", "cac:Country/cbc:IdentificationCode");
  needs("BR-12", sums, "cbc:LineExtensionAmount");
  needs("BR-13", sums, "cbc:TaxExclusiveAmount");
  needs("BR-14", sums, "cbc:TaxInclusiveAmount");
  needs("BR-15", sums, "cbc:PayableAmount");
  rules.push_back({"BR-16", "/*", "count(cac:InvoiceLine|cac:CreditNoteLine) > 0", line, "-"});
  needs("BR-21", line, "cbc:ID");
  rules.push_back({"BR-22", line, present("cbc:InvoicedQuantity|cbc:CreditedQuantity"),
                   line + "/cbc:InvoicedQuantity", "-"});
  rules.push_back({"BR-23", line, present("(cbc:InvoicedQuantity|cbc:CreditedQuantity)/@unitCode"),
                   line + "/cbc:InvoicedQuantity/@unitCode", "-"});
  needs("BR-24", line, "cbc:LineExtensionAmount");
  needs("BR-25", line, "cac:Item/cbc:Name");
  needs("BR-26", line, "cac:Price/cbc:PriceAmount");
  rules.push_back(
      {"BR-27", line, "cac:Price/cbc:PriceAmount >= 0", line + "/cac:Price/cbc:PriceAmount", "-1"});
  rules.push_back({"BR-29", "/*/cac:InvoicePeriod",
                   "translate(cbc:EndDate,'-','') >= translate(cbc:StartDate,'-','')",
                   "/*/cac:InvoicePeriod/cbc:EndDate", "2026-01-01"});
  needs("BR-31", off, "cbc:Amount");
  needs("BR-32", off, "cac:TaxCategory/cbc:ID");
  needs("BR-33", off, "cbc:AllowanceChargeReason");
  needs("BR-41", line_off, "cbc:Amount");
  needs("BR-42", line_off, "cbc:AllowanceChargeReason");
  needs("BR-45", sub, "cbc:TaxableAmount");
  needs("BR-46", sub, "cbc:TaxAmount");
  needs("BR-47", sub, "cac:TaxCategory/cbc:ID");
  rules.push_back({"BR-48", sub, present("cac:TaxCategory/cbc:Percent") + " or cac:TaxCategory/cbc:ID='O'",
                   sub + "/cac:TaxCategory/cbc:Percent", "-"});
  needs("BR-49", "/*/cac:PaymentMeans", "cbc:PaymentMeansCode");
  needs("BR-50", "/*/cac:PaymentMeans/cac:PayeeFinancialAccount", "cbc:ID");
  needs("BR-55", "/*/cac:BillingReference", "cac:InvoiceDocumentReference/cbc:ID");
  rules.push_back({"BR-61", "/*/cac:PaymentMeans[cbc:PaymentMeansCode=30 or cbc:PaymentMeansCode=58]",
                   present("cac:PayeeFinancialAccount/cbc:ID"),
                   "/*/cac:PaymentMeans/cac:PayeeFinancialAccount", "-"});
}

void joined(std::vector<Rule>& rules) {
  const std::string tax_of_line = "cac:Item/cac:ClassifiedTaxCategory/cbc:ID";
  rules.push_back({"BR-CO-04", line, present(tax_of_line), line + "/" + tax_of_line, "-"});
  // Two letters and something behind them; which letters there are is tested where they are judged.
  rules.push_back({"BR-CO-09", "//cac:PartyTaxScheme",
                   "string-length(cbc:CompanyID) > 2 and translate(substring(cbc:CompanyID,1,2),"
                   "'ABCDEFGHIJKLMNOPQRSTUVWXYZ','')=''",
                   "//cac:PartyTaxScheme/cbc:CompanyID", "123"});
  rules.push_back({"BR-CO-10", sums,
                   cents("cbc:LineExtensionAmount") + "=" +
                       cents("sum(../cac:InvoiceLine/cbc:LineExtensionAmount|../cac:CreditNoteLine/"
                             "cbc:LineExtensionAmount)"),
                   sums + "/cbc:LineExtensionAmount", "1.00"});
  rules.push_back({"BR-CO-11", sums + "[cbc:AllowanceTotalAmount]",
                   cents("cbc:AllowanceTotalAmount") + "=" + cents("sum(../cac:AllowanceCharge/cbc:Amount)"),
                   sums + "/cbc:AllowanceTotalAmount", "1.00"});
  rules.push_back({"BR-CO-13", sums,
                   cents("cbc:TaxExclusiveAmount") + "=" +
                       cents("cbc:LineExtensionAmount - sum(cbc:AllowanceTotalAmount)"),
                   sums + "/cbc:TaxExclusiveAmount", "1.00"});
  rules.push_back({"BR-CO-14", "/*/cac:TaxTotal",
                   cents("cbc:TaxAmount") + "=" + cents("sum(cac:TaxSubtotal/cbc:TaxAmount)"),
                   "/*/cac:TaxTotal/cbc:TaxAmount", "1.00"});
  rules.push_back({"BR-CO-15", sums,
                   cents("cbc:TaxInclusiveAmount") + "=" +
                       cents("cbc:TaxExclusiveAmount + ../cac:TaxTotal/cbc:TaxAmount"),
                   sums + "/cbc:TaxInclusiveAmount", "1.00"});
  rules.push_back(
      {"BR-CO-16", sums,
       cents("cbc:PayableAmount") + "=" + cents("cbc:TaxInclusiveAmount - sum(cbc:PrepaidAmount)"),
       sums + "/cbc:PayableAmount", "1.00"});
  // Within half a cent of the exact product, whichever way a tie goes.
  const std::string out = "(cbc:TaxAmount * 100 - cbc:TaxableAmount * sum(cac:TaxCategory/cbc:Percent))";
  rules.push_back(
      {"BR-CO-17", sub, out + " <= 0.500001 and " + out + " >= -0.500001", sub + "/cbc:TaxAmount", "1.23"});
  rules.push_back({"BR-CO-18", "/*", "count(cac:TaxTotal/cac:TaxSubtotal) > 0", sub, "-"});
  rules.push_back({"BR-CO-19", "/*/cac:InvoicePeriod", "count(cbc:StartDate|cbc:EndDate) > 0",
                   "/*/cac:InvoicePeriod/*", "-"});
  rules.push_back(
      {"BR-CO-21", off, present("cbc:AllowanceChargeReason"), off + "/cbc:AllowanceChargeReason", ""});
  rules.push_back({"BR-CO-23", line_off, present("cbc:AllowanceChargeReason"),
                   line_off + "/cbc:AllowanceChargeReason", ""});
  rules.push_back({"BR-CO-25", "/*[cac:LegalMonetaryTotal/cbc:PayableAmount > 0]",
                   "count(cbc:DueDate|cac:PaymentTerms/cbc:Note) > 0", "/*/cbc:DueDate|/*/cac:PaymentTerms",
                   "-"});
  rules.push_back(
      {"BR-CO-26", party,
       "count(cac:PartyTaxScheme/cbc:CompanyID|cac:PartyIdentification/cbc:ID|cac:PartyLegalEntity/"
       "cbc:CompanyID) > 0",
       party + "/cac:PartyTaxScheme|" + party + "/cac:PartyLegalEntity/cbc:CompanyID", "-"});
}

void decimals(std::vector<Rule>& rules) {
  const auto two = [&](const std::string& code, const std::string& path) {
    rules.push_back({code, path, "string-length(substring-after(., '.')) <= 2", path, "1.234"});
  };
  two("BR-DEC-01", off + "/cbc:Amount");
  two("BR-DEC-09", sums + "/cbc:LineExtensionAmount");
  two("BR-DEC-10", sums + "/cbc:AllowanceTotalAmount");
  two("BR-DEC-12", sums + "/cbc:TaxExclusiveAmount");
  two("BR-DEC-13", "/*/cac:TaxTotal/cbc:TaxAmount");
  two("BR-DEC-14", sums + "/cbc:TaxInclusiveAmount");
  two("BR-DEC-16", sums + "/cbc:PrepaidAmount");
  two("BR-DEC-18", sums + "/cbc:PayableAmount");
  two("BR-DEC-19", sub + "/cbc:TaxableAmount");
  two("BR-DEC-20", sub + "/cbc:TaxAmount");
  two("BR-DEC-23", line + "/cbc:LineExtensionAmount");
  two("BR-DEC-24", line_off + "/cbc:Amount");
}

void of_category(std::vector<Rule>& rules, const std::string& c) {
  const auto code = [&](const std::string& number) { return "BR-" + c + "-" + number; };
  const std::string is = "[cbc:ID='" + c + "']";
  const std::string line_tax = line + "/cac:Item/cac:ClassifiedTaxCategory" + is;
  const std::string off_tax = off + "/cac:TaxCategory" + is;
  const std::string sub_tax = sub + "/cac:TaxCategory" + is;
  const std::string any = "(count(" + line_tax + ") + count(" + off_tax + "))";
  const std::string found = "count(" + sub_tax + ")";
  rules.push_back(
      {code("01"), "/*",
       c == "S" ? "(" + any + " > 0) = (" + found + " > 0)" : found + " = number(" + any + " > 0)",
       sub + "[cac:TaxCategory/cbc:ID='" + c + "']", "-"});
  std::string who = "count(" + his_number + ") = 1";
  std::string whose = his_number;
  if (c == "AE") {
    who += " and count(" + their_number + "|" + customer + "/cac:PartyLegalEntity/cbc:CompanyID) > 0";
    whose = their_number;
  } else if (c == "O") {
    who = "count(" + his_number + "|" + their_number + ") = 0";
    whose = party + "[not(cac:PartyTaxScheme)]";
  }
  const std::string spoilt_so = c == "O" ? "+cac:PartyTaxScheme/cbc:CompanyID" : "-";
  const std::string only = "[//cbc:ID[.='" + c + "']]";
  rules.push_back({code("02"), line_tax, who, c == "O" ? whose : whose + only, spoilt_so});
  rules.push_back({code("03"), off_tax, who, c == "O" ? whose : whose + only, spoilt_so});
  rules.push_back(
      {code("04"), "/*", "count(//cbc:ChargeIndicator[.='true']) = 0", off + "/cbc:ChargeIndicator", "true"});
  const std::string percent = c == "S"   ? "cbc:Percent > 0"
                              : c == "O" ? "count(cbc:Percent) = 0"
                                         : "cbc:Percent = 0";
  const std::string worse = c == "S" ? "0" : "5";
  const auto spoil_percent = [&](const std::string& path) {
    return c == "O" ? std::pair(path, std::string("+cbc:Percent")) : std::pair(path + "/cbc:Percent", worse);
  };
  rules.push_back(
      {code("05"), line_tax, percent, spoil_percent(line_tax).first, spoil_percent(line_tax).second});
  rules.push_back(
      {code("06"), off_tax, percent, spoil_percent(off_tax).first, spoil_percent(off_tax).second});
  rules.push_back({code("07"), "/*", "count(//cbc:ChargeTotalAmount) = 0", sums, "+cbc:ChargeTotalAmount"});
  rules.push_back({code("08"), sub_tax, "", sub + "[cac:TaxCategory" + is + "]/cbc:TaxableAmount", "1.00"});
  const std::string out = "(../cbc:TaxAmount * 100 - ../cbc:TaxableAmount * cbc:Percent)";
  rules.push_back({code("09"), sub_tax,
                   c == "S" ? out + " <= 0.500001 and " + out + " >= -0.500001" : "../cbc:TaxAmount = 0",
                   sub + "[cac:TaxCategory" + is + "]/cbc:TaxAmount", "1.23"});
  const bool plain = c == "S" || c == "Z";
  rules.push_back({code("10"), sub_tax,
                   plain ? "count(cbc:TaxExemptionReason|cbc:TaxExemptionReasonCode) = 0"
                         : present("cbc:TaxExemptionReason"),
                   plain ? sub_tax : sub_tax + "/cbc:TaxExemptionReason",
                   plain ? "+cbc:TaxExemptionReason" : "-"});
}

void outside_the_tax(std::vector<Rule>& rules) {
  const std::string with = "/*[cac:TaxTotal/cac:TaxSubtotal/cac:TaxCategory/cbc:ID='O']";
  const auto none = [&](const std::string& code, const std::string& path) {
    rules.push_back({code, with, "count(" + path + "[cbc:ID!='O']) = 0",
                     path + "[cbc:ID='O']/cbc:ID[//cac:TaxCategory]", "S"});
  };
  rules.push_back({"BR-O-11", with, "count(" + sub + "/cac:TaxCategory[cbc:ID!='O']) = 0",
                   with + "/cac:TaxTotal", "+cac:TaxSubtotal/cac:TaxCategory/cbc:ID"});
  none("BR-O-12", line + "/cac:Item/cac:ClassifiedTaxCategory");
  none("BR-O-13", off + "/cac:TaxCategory");
  rules.push_back(
      {"BR-O-14", with, "count(//cbc:ChargeIndicator[.='true']) = 0", off + "/cbc:ChargeIndicator", "true"});
}

/// About what is never written: the rule, and the element that it would be about.
void never_written(std::vector<Rule>& rules) {
  const std::vector<std::pair<std::string, std::string>> absent{
      {"BR-17", "cac:PayeeParty"},
      {"BR-18", "cac:TaxRepresentativeParty"},
      {"BR-19", "cac:TaxRepresentativeParty"},
      {"BR-20", "cac:TaxRepresentativeParty"},
      {"BR-28", "cac:Price/cac:AllowanceCharge"},
      {"BR-30", "cac:InvoiceLine/cac:InvoicePeriod"},
      {"BR-36", "cbc:ChargeTotalAmount"},
      {"BR-37", "cbc:ChargeTotalAmount"},
      {"BR-38", "cbc:ChargeTotalAmount"},
      {"BR-43", "cbc:ChargeTotalAmount"},
      {"BR-44", "cbc:ChargeTotalAmount"},
      {"BR-51", "cac:CardAccount"},
      {"BR-52", "cac:AdditionalDocumentReference"},
      {"BR-53", "cbc:TaxCurrencyCode"},
      {"BR-54", "cac:AdditionalItemProperty"},
      {"BR-56", "cac:TaxRepresentativeParty"},
      {"BR-57", "cac:DeliveryLocation"},
      {"BR-62", "cbc:EndpointID"},
      {"BR-63", "cbc:EndpointID"},
      {"BR-64", "cac:StandardItemIdentification"},
      {"BR-65", "cac:CommodityClassification"},
      {"BR-CO-03", "cbc:TaxPointDate"},
      {"BR-CO-05", "cbc:AllowanceChargeReasonCode"},
      {"BR-CO-06", "cbc:AllowanceChargeReasonCode"},
      {"BR-CO-07", "cbc:AllowanceChargeReasonCode"},
      {"BR-CO-08", "cbc:AllowanceChargeReasonCode"},
      {"BR-CO-12", "cbc:ChargeTotalAmount"},
      {"BR-CO-20", "cac:InvoiceLine/cac:InvoicePeriod"},
      {"BR-CO-22", "cbc:ChargeTotalAmount"},
      {"BR-CO-24", "cbc:ChargeTotalAmount"},
      {"BR-DEC-02", "cbc:BaseAmount"},
      {"BR-DEC-05", "cbc:ChargeTotalAmount"},
      {"BR-DEC-06", "cbc:ChargeTotalAmount"},
      {"BR-DEC-11", "cbc:ChargeTotalAmount"},
      {"BR-DEC-15", "cbc:TaxCurrencyCode"},
      {"BR-DEC-17", "cbc:PayableRoundingAmount"},
      {"BR-DEC-25", "cbc:BaseAmount"},
      {"BR-DEC-27", "cbc:ChargeTotalAmount"},
      {"BR-DEC-28", "cbc:BaseAmount"}};
  for (const auto& [code, element] : absent)
    rules.push_back({code, "/*", "count(//" + element + ") = 0", "/*", "+" + element});
}

const std::vector<Rule>& rules() {
  static const std::vector<Rule> made = [] {
    std::vector<Rule> out;
    presence(out);
    joined(out);
    decimals(out);
    for (const char* category : {"S", "Z", "E", "AE", "O"})
      of_category(out, category);
    outside_the_tax(out);
    never_written(out);
    return out;
  }();
  return made;
}

const std::vector<std::string>& documents() {
  static const std::vector<std::string> made = [] {
    std::vector<std::string> out;
    for (const account::Invoice& invoice : ubl_samples())
      out.push_back(invoice_ubl(invoice));
    return out;
  }();
  return made;
}

/// Of one tax, and of one rate where there may be several: the lines less what is taken off them together.
bool taxable_adds_up(const pugi::xml_node& category) {
  const std::string id = category.child_value("cbc:ID");
  const std::string rate = category.child_value("cbc:Percent");
  const std::string is = "[cbc:ID='" + id + "'" + (rate.empty() ? "" : " and cbc:Percent=" + rate) + "]";
  const std::string wanted = "sum(" + line + "[cac:Item/cac:ClassifiedTaxCategory" + is +
                             "]/cbc:LineExtensionAmount) - sum(" + off + "[cac:TaxCategory" + is +
                             "]/cbc:Amount)";
  return pugi::xpath_query((cents("../cbc:TaxableAmount") + " = " + cents(wanted)).c_str())
      .evaluate_boolean(category);
}

/// @param places counted up by how many it was about
bool keeps(const Rule& rule, const pugi::xml_document& document, int& places) {
  bool all = true;
  for (const pugi::xpath_node& place : document.select_nodes(rule.of.c_str())) {
    ++places;
    all = all && (rule.holds.empty() ? taxable_adds_up(place.node())
                                     : pugi::xpath_query(rule.holds.c_str()).evaluate_boolean(place));
  }
  return all;
}

void spoil(pugi::xml_document& document, const Rule& rule) {
  for (const pugi::xpath_node& place : document.select_nodes(rule.at.c_str())) {
    if (place.attribute()) {
      place.parent().remove_attribute(place.attribute());
    } else if (rule.becomes == "-") {
      place.parent().remove_child(place.node());
    } else if (!rule.becomes.empty() && rule.becomes.front() == '+') {
      pugi::xml_node at = place.node();
      std::string path = rule.becomes.substr(1);
      for (std::size_t slash = path.find('/'); slash != std::string::npos; slash = path.find('/')) {
        at = at.append_child(path.substr(0, slash).c_str());
        path.erase(0, slash + 1);
      }
      at.append_child(path.c_str()).text().set("1");
    } else {
      place.node().text().set(rule.becomes.c_str());
    }
  }
}

class Rules : public testing::TestWithParam<Rule> {};

TEST_P(Rules, HoldsForEverySampleAndBreaksWhereItIsSpoilt) {
  const Rule& rule = GetParam();
  int places = 0;
  bool broke = false;
  for (const std::string& text : documents()) {
    pugi::xml_document document;
    ASSERT_TRUE(document.load_string(text.c_str()));
    EXPECT_TRUE(keeps(rule, document, places)) << rule.holds << "\n" << text;
    if (broke || document.select_nodes(rule.at.c_str()).empty()) continue;
    spoil(document, rule);
    int ignored = 0;
    broke = !keeps(rule, document, ignored);
  }
  EXPECT_GT(places, 0) << "no sample has what the rule is about: " << rule.of;
  EXPECT_TRUE(broke) << "spoiling " << rule.at << " made no difference";
}

INSTANTIATE_TEST_SUITE_P(EN16931, Rules, testing::ValuesIn(rules()),
                         [](const testing::TestParamInfo<Rule>& rule) {
                           std::string name = rule.param.code;
                           std::replace(name.begin(), name.end(), '-', '_');
                           return name;
                         });

}  // namespace
}  // namespace weatherstruck::files
