package ledger

import (
	"math/big"

	"piecebook/ledger/money"
)

// FeeByPercent is base × fee_percent + fee_fixed, rounded once, half to even;
// fee_least is not looked at.
func (c Channel) FeeByPercent(base money.Cents) money.Cents {
	return byPercent(base, c.FeePercent, c.FeeFixed)
}

// CardFeeOn is base × card_percent + card_fixed, rounded once, half to even.
func (c Channel) CardFeeOn(base money.Cents) money.Cents {
	return byPercent(base, c.CardPercent, c.CardFixed)
}

func byPercent(base money.Cents, percent *big.Rat, fixed money.Cents) money.Cents {
	sum := fixed.Rat()
	if percent != nil {
		part := new(big.Rat).Mul(base.Rat(), percent)
		sum.Add(sum, part.Quo(part, big.NewRat(100, 1)))
	}
	return money.Round(sum)
}
