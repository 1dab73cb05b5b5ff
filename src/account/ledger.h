#pragma once
// Where charges, questions and things kept off are gathered, each thing held against what was billed before.
#include <cstdint>
#include <string>
#include <vector>

#include "weatherstruck/account/charges.h"

namespace weatherstruck::account {

class Ledger {
 public:
  /// Whether a thing may come up again and be more by then.
  enum class Grows { no, yes };

  /// `before` must outlive it.
  Ledger(const base::Currency& currency, const BilledBefore& before);

  /// A line, unless it was billed before; nothing for a quantity of nought.
  void charge(Charge made, Grows grows = Grows::no);
  void ask(std::string code, std::string about, std::string text);
  void keep_off(std::string key, std::string text, std::string why);
  void leave_deposit(const base::Money& left) { out_.deposit = left; }
  void leave_billed_deposits(const std::vector<BilledDeposit>& deposits) { out_.deposits = deposits; }
  void take_off(Off off) { out_.off = std::move(off); }
  /// A key that nothing else has: two like things of the book are told apart by their order.
  std::string own_key(const std::string& key);
  Charges take() { return std::move(out_); }

 private:
  const BilledBefore& before_;
  Charges out_;
  std::vector<std::string> keys_;
};

}  // namespace weatherstruck::account
