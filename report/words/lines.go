package words

import (
	"cmp"
	"fmt"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
)

// labels is what pages, workbooks and the terminal call the figures of each
// scope; a test holds it to the ledger's table of lines.
var labels = map[figures.Scope]map[figures.ID]string{
	figures.OfStatement: {
		figures.LineGrossReceipts: "Gross receipts", figures.LineRefunds: "refunds and returns",
		figures.LineNetReceipts: "Net receipts",
		figures.LineCostOfSales: "cost of pieces sold", figures.LineGrossProfit: "Gross profit on pieces sold",
		figures.LineSellingCosts: "selling costs",
		figures.LineTrips:        "Trips", figures.LineExpenses: "Expenses",
		figures.LineEquipment:   "Equipment written off at once",
		figures.LineShelfLosses: "Shelf losses", figures.LinePiecesLost: "Pieces lost, at book cost",
		figures.LineAllCosts:    "All these costs",
		figures.LineOtherIncome: "Other income", figures.LineNetProfit: "Net profit",
		figures.LineUnfinished:   "part payments on unfinished work",
		figures.LineKept:         "pieces kept or donated, at book cost",
		figures.LineSalesTaxOwed: "sales tax owed at the end",
		figures.LineTiedUp:       "Tied up in pieces and shelf",
	},
	figures.OfStock: {
		figures.LineOpening: "Opening", figures.LineAcquired: "Acquired", figures.LineParts: "Parts",
		figures.LineOutsideWork: "Outside work",
		figures.LineSupplies:    "Supplies put in", figures.LineReturned: "Returned", figures.LineSold: "sold",
		figures.LineRemoved: "removed unsold", figures.LineClosing: "Closing",
	},
	figures.OfShelf: {
		figures.LineOpening: "Opening", figures.LineBought: "Bought", figures.LineUsed: "Used", figures.LineLost: "Lost",
		figures.LineClosing: "Closing",
	},
	figures.OfPiece: {
		figures.LineReceipts: "Receipts", figures.LineAcquisition: "Acquisition", figures.LineParts: "Parts",
		figures.LineOutsideWork: "Outside work",
		figures.LineSupplies:    "Supplies", figures.LineBookCost: "Book cost", figures.LineSellingCosts: "Selling costs",
		figures.LineTrips:  "Trips",
		figures.LineProfit: "Profit before shop costs", figures.LineOverhead: "Its shop costs",
		figures.LineAfterOverhead: "Profit after shop costs",
		figures.LineSoldLess:      "Sold less bought", figures.LineHeld: "Part payments held",
		figures.LineTiedUp:   "Tied up in it",
		figures.LineReceived: "Received for it, other income",
	},
}

// How a line counts, said before its label.
const (
	less          = "less:"
	notInIt       = "not in it:"
	includedAbove = "included above:"
)

// counts is how lines count that are not simply added.
var counts = map[figures.Scope]map[figures.ID]string{
	figures.OfStatement: {
		figures.LineRefunds: less, figures.LineCostOfSales: less, figures.LineSellingCosts: less,
		figures.LineUnfinished: includedAbove, figures.LineKept: notInIt, figures.LineSalesTaxOwed: notInIt,
	},
	figures.OfStock: {figures.LineSold: less, figures.LineRemoved: less},
}

// ratioLabels is what a piece's figures that are worked out of others are called.
var ratioLabels = map[figures.ID]string{
	"hours": "Hours", "profit_per_hour": "An hour before shop costs",
	"profit_per_hour_after_overhead": "An hour after shop costs", "margin": "Margin", "return_on_cost": "Return on cost",
	"return_a_year": "Return a year", "days_held": "Days held",
}

// Labels that heads of columns are made of.
var (
	NetProfit        = labels[figures.OfStatement][figures.LineNetProfit]
	BeforeShopCosts  = labels[figures.OfPiece][figures.LineProfit]
	AfterShopCosts   = labels[figures.OfPiece][figures.LineAfterOverhead]
	SoldLessBought   = labels[figures.OfPiece][figures.LineSoldLess]
	PartPaymentsHeld = labels[figures.OfPiece][figures.LineHeld]
	HourBefore       = ratioLabels["profit_per_hour"]
	HourAfter        = ratioLabels["profit_per_hour_after_overhead"]
)

// Label is what a figure of a scope is called on pages, with how it counts;
// blank for none of it.
func Label(of figures.Scope, id figures.ID) string {
	if how := counts[of][id]; how != "" {
		return how + " " + labels[of][id]
	}
	return bare(of, id)
}

// bare is a label without how its line counts.
func bare(of figures.Scope, id figures.ID) string {
	if label := labels[of][id]; label != "" || of != figures.OfPiece {
		return label
	}
	return ratioLabels[id]
}

// Named is a figure within a sentence: its label, else its name with blanks.
func Named(of figures.Scope, id figures.ID) string {
	if label := bare(of, id); label != "" {
		return Uncapital(label)
	}
	return Figure(id)
}

// AllNamed names the figures of a scope, and a piece's that are worked out of
// others, in order.
func AllNamed(of figures.Scope) []string {
	var out []string
	for _, name := range figures.Names(of) {
		out = append(out, Named(of, figures.ID(name)))
	}
	if of == figures.OfPiece {
		for _, name := range figures.RatioNames() {
			out = append(out, Named(of, figures.ID(name)))
		}
	}
	return out
}

// Reason is why a posting was made, as it is printed.
func Reason(r ledger.Reason) string {
	if r == ledger.ReasonOverhead {
		return "shop costs"
	}
	return string(r)
}

// ForeignMileage says that trips are cost by the rate of a country with other money.
func ForeignMileage(r ledger.MileageRate, s ledger.Settings) string {
	return fmt.Sprintf("Trips are at %s %s a %s, which is another country's rate (%s; %s): a rate of the shop's own goes "+
		"under [mileage] in settings.toml.", money.AtMost(r.PerMile, 4), s.Currency,
		strings.TrimSuffix(s.DistanceUnit(), "s"), r.Foreign, r.Source)
}

// Account is an account as workbooks print it.
func Account(a ledger.Account) string {
	switch a {
	case ledger.Overheads:
		return "shop costs (memo)"
	case ledger.Allotted:
		return "shop costs allotted (memo)"
	}
	return string(a)
}

// GroupLabel is a group of expenses as the statement calls it.
func GroupLabel(group string) string {
	return Capital(Group(group))
}

// Asked is the line of a scope that an owner asks for: by its name in
// figures.json, by what pages call it or by another usual name, in any case,
// with blanks or dashes for underscores. Where the scope has none of the name
// it is the name itself, so written.
func Asked(of figures.Scope, name string) figures.ID {
	asked := askedAs(name)
	if figures.Find(of, figures.ID(asked)) != nil {
		return figures.ID(asked)
	}
	for _, known := range []map[figures.ID]string{labels[of], ratioLabels} {
		for id, label := range known {
			if askedAs(label) == asked {
				return id
			}
		}
	}
	return cmp.Or(otherNames[asked], figures.ID(asked))
}

// SameLabel says that two labels are the same to somebody who types one.
func SameLabel(a, b string) bool { return askedAs(a) == askedAs(b) }

// LabelBegins says that a label begins with what somebody typed.
func LabelBegins(label, typed string) bool { return strings.HasPrefix(askedAs(label), askedAs(typed)) }

// askedAs is a name that somebody typed, without how its line counts, which
// pages put before it, and with underscores.
func askedAs(name string) string {
	name = strings.ToLower(strings.TrimSpace(name))
	for _, how := range []string{less, notInIt, includedAbove} {
		name = strings.TrimSpace(strings.TrimPrefix(name, how))
	}
	return strings.NewReplacer(" ", "_", "-", "_").Replace(name)
}

// otherNames are further names that figures are asked for by.
var otherNames = map[string]figures.ID{
	"before_shop_costs": figures.LineProfit, "after_shop_costs": figures.LineAfterOverhead,
	"shop_costs":       figures.LineOverhead,
	"after_everything": figures.LineProfit, "after_overhead": figures.LineAfterOverhead,
	"after_its_share_of_overhead": figures.LineAfterOverhead,
	"overheads":                   figures.LineOverhead, "share_of_overhead": figures.LineOverhead,
	"book_cost_so_far": figures.LineBookCost,
	"money_tied_up":    figures.LineTiedUp,
	"per_hour":         "profit_per_hour", "an_hour": "profit_per_hour", "hourly": "profit_per_hour", "profit_an_hour": "profit_per_hour",
	"per_hour_of_work": "profit_per_hour", "return": "return_on_cost", "return_per_year": "return_a_year", "held_days": "days_held", "return_on_book_cost": "return_on_cost",
	"all_hours": "hours", "all_supplies": figures.LineSupplies, "worth": figures.LineClosing, "left": figures.LineClosing,
	"days": "days_held", "hours_so_far": "hours",
}

// What says in words what a posting is for.
func What(p ledger.Posting) string { return WhatOf(p).String() }

// WhatOf is What with the total set apart that the posting is a part of.
func WhatOf(p ledger.Posting) Arithmetic {
	a := Arithmetic{Before: How(p)}
	if p.Of != nil && p.Line >= 0 && p.Line < len(p.Of.Lines) && p.How.Method != ledger.UsedSupply &&
		p.How.Method != ledger.LostSupply && p.How.Method != ledger.Overhead {
		a = Arithmetic{Whole: Total(p.Of), After: afterTotal(p)}
	}
	switch p.Reason {
	case ledger.ReasonSale, ledger.ReasonPartPayment, ledger.ReasonRefund, ledger.ReasonReturn:
		name := Capital(Reason(p.Reason))
		if p.Group != "" {
			name += ", " + p.Group
		}
		if a != (Arithmetic{}) {
			name += ": "
		}
		a.Before = name + a.Before
		return a
	case ledger.ReasonExpense:
		if p.Group != "" {
			a.After += " (" + Group(p.Group) + ")"
		}
	}
	if a == (Arithmetic{}) {
		a.Before = Reason(p.Reason)
	}
	if a.Before == "" {
		a.Whole = Capital(a.Whole)
	}
	a.Before = Capital(a.Before)
	return a
}
