package taxyear

import "piecebook/ledger/figures"

// Amounts are the names of all that a form's lines may take, with the groups
// of Expenses there are.
func Amounts(groups []string) []string {
	var out []string
	for _, l := range figures.LinesOf(figures.OfTaxYear) {
		if !l.ByGroup {
			out = append(out, amountName(l.ID))
		}
	}
	for _, g := range groups {
		out = append(out, expenseOf+g)
	}
	return out
}

// Asked are the names that a line's question may be about, with the groups of
// Expenses and of Other income there are.
func Asked(groups, income []string) []string {
	out := append(Amounts(groups), askStolen, askDonated, askOlder, askLate)
	for _, g := range income {
		out = append(out, askIncome+g)
	}
	return out
}
