package words

import (
	"fmt"

	"piecebook/ledger"
	"piecebook/ledger/missing"
	"piecebook/ledger/money"
)

// KnownFrom says what a supply's coverage is known from.
var KnownFrom = map[ledger.Basis]string{ledger.FromOwn: "earlier counts", ledger.FromBuying: "buying again",
	ledger.Stated: "Supplies", ledger.Starting: "the usual figure of its group"}

// LeftByRecords is what of a supply the records say is left: 2.35 × 1 qt.
func LeftByRecords(c missing.Count) string {
	return containers(money.RoundTo(c.Left, 2), c.Supply.Container)
}

// WhyCount says why a supply is worth counting, without naming it.
func WhyCount(c missing.Count) string {
	return fmt.Sprintf("coverage known from %s, usually %d %% off; %s used since %s", KnownFrom[c.Known], c.Off,
		c.Charged.Grouped(), c.Since.Name())
}
