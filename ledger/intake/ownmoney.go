package intake

import (
	"regexp"

	"piecebook/ledger/fault"
)

// ownMoney is money that the owner moved or took, which changes no profit, and what a
// transfer may be (common practice, no source).
var ownMoney = regexp.MustCompile(`(?i)^(?:` +
	`(?:owner'?s?'? |my |own |cash )?(?:draw|draws|drawing|drawings|withdrawal)(?: for .*)?` +
	`|(?:paid|pay) (?:to )?(?:myself|self|me|owner)|(?:owner|own|my) (?:pay|salary|wages)` +
	`|(?:owner|own) (?:contribution|money|cash)(?: in)?` +
	`|(?:moved?|put|transfer(?:red)?|xfer|cash|money)\b.* (?:savings|checking|bank|personal|(?:my|own) account)\b.*` +
	`|(?:bank |account )?(?:transfer|xfer)(?:red)?(?: (?:in|out|into|to|from)\b.*)?` +
	`|(?:to|from|into) (?:my )?(?:savings|checking)(?: account)?|savings` +
	`|(?:credit card|card|visa|mastercard|amex|loan) (?:payment|paid off|bill)` +
	`|(?:paid|pay) off (?:the |my )?(?:credit card|card|loan|visa)` +
	`)\.?$`)

// askOwnMoney asks about a line that by its words is money moved or taken by the owner.
func (rec *record) askOwnMoney() {
	if ownMoney.MatchString(rec.Raw("what")) {
		rec.Fail("what", fault.CodeOwnMoney, "By its words the owner moved or took this money, which is neither a cost nor "+
			"income of the shop.",
			"If so, take this line out of the table. If not, say in its words what was paid for.")
	}
}
