#include "weatherstruck/files/invoice_ubl.h"

#include <algorithm>
#include <pugixml.hpp>
#include <utility>
#include <vector>

#include "plain_numbers.h"
#include "weatherstruck/account/einvoice.h"
#include "weatherstruck/account/rounding.h"
#include "weatherstruck/render/invoice_words.h"

namespace weatherstruck::files {
namespace {

using account::Invoice;
using Node = pugi::xml_node;

// BT-24, as the standard's own first edition and its amendment name it; EN 16931-1, 5.2, BT-24.
constexpr const char* specification = "urn:cen.eu:en16931:2017";
constexpr const char* invoice_type = "380";      // UNTDID 1001
constexpr const char* prepayment_type = "386";   // likewise, and in the part of it that BR-CL-01 allows
constexpr const char* credit_note_type = "381";  // likewise
// UNTDID 4461: 30 is a credit transfer, 1 leaves it open.
constexpr const char* by_transfer = "30";
constexpr const char* as_agreed = "1";

class Writer {
 public:
  explicit Writer(const Invoice& invoice) : invoice_(invoice), note_(invoice.credited.has_value()) {}

  std::string run() {
    pugi::xml_document document;
    Node declaration = document.append_child(pugi::node_declaration);
    declaration.append_attribute("version") = "1.0";
    declaration.append_attribute("encoding") = "UTF-8";
    const std::string kind = note_ ? "CreditNote" : "Invoice";
    Node root = document.append_child(kind.c_str());
    const std::string schema = "urn:oasis:names:specification:ubl:schema:xsd:";
    root.append_attribute("xmlns") = (schema + kind + "-2").c_str();
    root.append_attribute("xmlns:cac") = (schema + "CommonAggregateComponents-2").c_str();
    root.append_attribute("xmlns:cbc") = (schema + "CommonBasicComponents-2").c_str();
    head(root);
    seller(add(add(root, "cac:AccountingSupplierParty"), "cac:Party"));
    buyer(add(add(root, "cac:AccountingCustomerParty"), "cac:Party"));
    payment(root);
    for (const account::SumDiscount& discount : invoice_.discounts) {
      Node off = allowance(root, discount.amount, discount.reason);
      category(add(off, "cac:TaxCategory"), discount.tax, false);
    }
    taxes(root);
    totals(root);
    for (std::size_t i = 0; i < invoice_.lines.size(); ++i)
      line(root, i);
    Bytes out;
    document.save(out, "  ", pugi::format_indent, pugi::encoding_utf8);
    return std::move(out.bytes);
  }

 private:
  struct Bytes : pugi::xml_writer {
    std::string bytes;
    void write(const void* data, std::size_t size) override {
      bytes.append(static_cast<const char*>(data), size);
    }
  };

  static Node add(Node to, const char* name) { return to.append_child(name); }
  static Node add(Node to, const char* name, const std::string& text) {
    Node made = to.append_child(name);
    made.append_child(pugi::node_pcdata).set_value(text.c_str());
    return made;
  }
  static void add_if(Node to, const char* name, const std::string& text) {
    if (!text.empty()) add(to, name, text);
  }
  static void money(Node to, const char* name, const base::Money& amount) {
    add(to, name, plain_amount(amount)).append_attribute("currencyID") = amount.currency().code().c_str();
  }

  void head(Node root) const {
    add(root, "cbc:CustomizationID", specification);
    add(root, "cbc:ID", account::number_text(invoice_.number));
    add(root, "cbc:IssueDate", iso_day(invoice_.dates.issued));
    if (!note_) add(root, "cbc:DueDate", iso_day(invoice_.dates.due));
    add(root, note_ ? "cbc:CreditNoteTypeCode" : "cbc:InvoiceTypeCode",
        note_                                   ? credit_note_type
        : account::is_deposit_invoice(invoice_) ? prepayment_type
                                                : invoice_type);
    add_if(root, "cbc:Note", note_ ? invoice_.credited->reason : invoice_.title);
    add(root, "cbc:DocumentCurrencyCode", invoice_.net.currency().code());
    add_if(root, "cbc:BuyerReference", invoice_.buyer.reference);
    if (invoice_.dates.work_from || invoice_.dates.work_to) {
      Node period = add(root, "cac:InvoicePeriod");
      if (invoice_.dates.work_from) add(period, "cbc:StartDate", iso_day(*invoice_.dates.work_from));
      if (invoice_.dates.work_to) add(period, "cbc:EndDate", iso_day(*invoice_.dates.work_to));
    }
    if (!invoice_.buyer.purchase_order.empty())
      add(add(root, "cac:OrderReference"), "cbc:ID", invoice_.buyer.purchase_order);
    if (note_) {
      before(root, invoice_.credited->number, invoice_.credited->issued);
    } else {
      for (const account::SetOff& off : invoice_.set_off)
        before(root, off.number, off.issued);
    }
  }

  /// BG-3: an invoice that this paper refers to.
  static void before(Node root, const account::InvoiceNumber& number, base::LocalDay issued) {
    Node of = add(add(root, "cac:BillingReference"), "cac:InvoiceDocumentReference");
    add(of, "cbc:ID", account::number_text(number));
    add(of, "cbc:IssueDate", iso_day(issued));
  }

  static void address(Node party, const std::string& words, const std::string& town,
                      const std::string& postcode, const std::string& country) {
    Node out = add(party, "cac:PostalAddress");
    const std::vector<std::string> lines = render::address_lines(words);
    std::string rest;
    for (std::size_t i = 2; i < lines.size(); ++i)
      rest += (rest.empty() ? "" : ", ") + lines[i];
    if (!lines.empty()) add(out, "cbc:StreetName", lines[0]);
    if (lines.size() > 1) add(out, "cbc:AdditionalStreetName", lines[1]);
    add_if(out, "cbc:CityName", town);
    add_if(out, "cbc:PostalZone", postcode);
    if (!rest.empty()) add(add(out, "cac:AddressLine"), "cbc:Line", rest);
    add(add(out, "cac:Country"), "cbc:IdentificationCode", country);
  }

  static void tax_number(Node party, const std::string& number) {
    if (number.empty()) return;
    Node scheme = add(party, "cac:PartyTaxScheme");
    add(scheme, "cbc:CompanyID", account::squeezed(number));
    add(add(scheme, "cac:TaxScheme"), "cbc:ID", "VAT");
  }

  static void legal(Node party, const std::string& name, const std::string& registration) {
    Node entity = add(party, "cac:PartyLegalEntity");
    add(entity, "cbc:RegistrationName", name);
    add_if(entity, "cbc:CompanyID", registration);
  }

  void seller(Node party) const {
    const account::Seller& who = invoice_.seller;
    address(party, who.address, who.town, who.postcode, who.country);
    tax_number(party, who.tax_number);
    legal(party, who.name, who.registration);
    if (who.contact.empty()) return;
    Node contact = add(party, "cac:Contact");
    const bool mail = who.contact.find('@') != std::string::npos;
    add(contact, mail ? "cbc:ElectronicMail" : "cbc:Telephone", who.contact);
  }

  void buyer(Node party) const {
    const account::Buyer& who = invoice_.buyer;
    address(party, who.address, who.town, who.postcode, who.country);
    tax_number(party, who.tax_number);
    legal(party, who.name, who.registration);
  }

  void payment(Node root) const {
    const account::Seller& who = invoice_.seller;
    if (!note_ && invoice_.due.minor() > 0 && (!who.iban.empty() || !who.pay_to.empty())) {
      Node means = add(root, "cac:PaymentMeans");
      add(means, "cbc:PaymentMeansCode", who.iban.empty() ? as_agreed : by_transfer);
      add(means, "cbc:PaymentID", account::number_text(invoice_.number));
      if (!who.iban.empty()) {
        Node account_node = add(means, "cac:PayeeFinancialAccount");
        add(account_node, "cbc:ID", account::squeezed(who.iban));
        add(account_node, "cbc:Name", who.name);
        if (!who.bic.empty())
          add(add(account_node, "cac:FinancialInstitutionBranch"), "cbc:ID", account::squeezed(who.bic));
      }
    }
    std::string terms;
    for (const std::string& words : render::closing_words(invoice_)) {
      const bool reason =
          std::any_of(invoice_.taxes.begin(), invoice_.taxes.end(),
                      [&](const account::TaxTotal& total) { return total.tax.reason == words; });
      if (!reason) terms += (terms.empty() ? "" : " ") + words;
    }
    if (!terms.empty()) add(add(root, "cac:PaymentTerms"), "cbc:Note", terms);
  }

  static void category(Node to, const account::Tax& tax, bool with_reason) {
    add(to, "cbc:ID", std::string(account::code_of(tax.category)));
    if (tax.category != account::TaxCategory::not_subject)
      add(to, "cbc:Percent", plain_decimal(tax.rate, 100, 2));
    if (with_reason) add_if(to, "cbc:TaxExemptionReason", tax.reason);
    add(add(to, "cac:TaxScheme"), "cbc:ID", "VAT");
  }

  static Node allowance(Node to, const base::Money& amount, const std::string& reason) {
    Node off = add(to, "cac:AllowanceCharge");
    add(off, "cbc:ChargeIndicator", "false");
    add(off, "cbc:AllowanceChargeReason", reason);
    money(off, "cbc:Amount", amount);
    return off;
  }

  void taxes(Node root) const {
    Node total = add(root, "cac:TaxTotal");
    money(total, "cbc:TaxAmount", invoice_.tax);
    for (const account::TaxTotal& one : invoice_.taxes) {
      Node sub = add(total, "cac:TaxSubtotal");
      money(sub, "cbc:TaxableAmount", one.net);
      money(sub, "cbc:TaxAmount", one.amount);
      category(add(sub, "cac:TaxCategory"), one.tax, true);
    }
  }

  void totals(Node root) const {
    Node sums = add(root, "cac:LegalMonetaryTotal");
    money(sums, "cbc:LineExtensionAmount", account::lines_net(invoice_));
    money(sums, "cbc:TaxExclusiveAmount", invoice_.net);
    money(sums, "cbc:TaxInclusiveAmount", invoice_.total);
    if (!invoice_.discounts.empty()) money(sums, "cbc:AllowanceTotalAmount", account::taken_off(invoice_));
    if (invoice_.deposit.minor() != 0) money(sums, "cbc:PrepaidAmount", invoice_.deposit);
    money(sums, "cbc:PayableAmount", invoice_.due);
  }

  void line(Node root, std::size_t index) const {
    const account::InvoiceLine& from = invoice_.lines[index];
    const account::Charge& charge = from.charge;
    Node out = add(root, note_ ? "cac:CreditNoteLine" : "cac:InvoiceLine");
    add(out, "cbc:ID", std::to_string(index + 1));
    add(out, note_ ? "cbc:CreditedQuantity" : "cbc:InvoicedQuantity",
        plain_decimal(charge.quantity, account::one_unit, 3))
        .append_attribute("unitCode") = std::string(account::code_of(charge.unit)).c_str();
    money(out, "cbc:LineExtensionAmount", from.net);
    if (charge.discount) allowance(out, charge.discount->amount, charge.discount->reason);
    Node item = add(out, "cac:Item");
    add(item, "cbc:Name", charge.text);
    category(add(item, "cac:ClassifiedTaxCategory"), charge.tax, false);
    money(add(out, "cac:Price"), "cbc:PriceAmount", charge.unit_price);
  }

  const Invoice& invoice_;
  bool note_;
};

}  // namespace

std::string invoice_ubl(const Invoice& invoice) {
  base::Faults faults = account::einvoice_faults(invoice);
  if (!faults.empty()) throw base::InputError("the electronic invoice", std::move(faults));
  return Writer(invoice).run();
}

}  // namespace weatherstruck::files
