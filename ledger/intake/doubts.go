package intake

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"piecebook/ledger/fault"
	"piecebook/ledger/measure"
	"piecebook/ledger/money"
)

// noteFraction notes a percentage below 1 typed as a bare number: 0.12 is how a
// calculator has 12 %.
func (rec *record) noteFraction(field string, x *big.Rat) {
	show := func(n *big.Rat) string {
		text := money.AtMost(n, 6)
		if rec.r.settings.DecimalComma {
			text = strings.ReplaceAll(text, ".", ",")
		}
		return text
	}
	meant := show(new(big.Rat).Mul(x, big.NewRat(100, 1)))
	rec.note(field, fault.CodePercentBelowOne, 0,
		fmt.Sprintf("This is read as %s %%, which is less than one in a hundred.", show(x)),
		fmt.Sprintf("If %s %% is meant, type %s; otherwise leave it.", meant, meant))
}

// Where ounces are doubted: groups sold as liquids, in sizes that cans and
// bottles of a measured volume have (half a pint to a gallon; common practice,
// no source). Spray cans, which go by weight, have others: 11, 12, 15 oz.
var (
	liquidGroups = []string{"stripper", "cleaner", "primer", "paint", "stain", "topcoat", "solvent"}
	liquidOunces = []int64{8, 16, 32, 64, 128}
)

// noteOunces notes a container of a liquid in plain ounces, which are a weight:
// labels often write oz for the fluid ounces of a can.
func (rec *record) noteOunces(field, group string, container measure.Amount) {
	asLiquid := slices.ContainsFunc(liquidOunces, func(n int64) bool { return container.Value.Cmp(big.NewRat(n, 1)) == 0 })
	if container.Unit.Name != "oz" || !asLiquid || !slices.Contains(liquidGroups, group) {
		return
	}
	size := money.AtMost(container.Value, 0)
	rec.note(field, fault.CodeOuncesAsWeight, 0,
		fmt.Sprintf("This is read as %s ounces of weight. A can of that size often holds fluid ounces.", size),
		fmt.Sprintf("If the label says fluid ounces (fl oz), type %s fl oz; otherwise leave it.", size))
}
