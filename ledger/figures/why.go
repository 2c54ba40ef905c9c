package figures

import (
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/costing"
	"piecebook/ledger/money"
)

// Behind is the postings under one figure, each with the cents it adds to it
// (negative where it takes away), and their total, which is the figure.
type Behind struct {
	Postings []ledger.Posting
	Total    money.Cents
}

// effect is what a posting adds to a figure; 0 where it has nothing to do with it.
type effect func(ledger.Posting) money.Cents

// gather applies an effect; postings that add nothing are left out.
func gather(postings []ledger.Posting, e effect) Behind {
	var b Behind
	for _, p := range postings {
		if cents := e(p); cents != 0 {
			p.Cents = cents
			b.Postings = append(b.Postings, p)
			b.Total += cents
		}
	}
	return b
}

// when is the effect of postings that match.
func when(match func(ledger.Posting) bool) effect {
	return func(p ledger.Posting) money.Cents {
		if match(p) {
			return p.Cents
		}
		return 0
	}
}

// onAccount is what an account gains.
func onAccount(a ledger.Account) effect {
	return func(p ledger.Posting) money.Cents {
		switch a {
		case p.To:
			return p.Cents
		case p.From:
			return -p.Cents
		}
		return 0
	}
}

func reasons(r ...ledger.Reason) effect {
	return when(func(p ledger.Posting) bool { return slices.Contains(r, p.Reason) })
}

func intoPiece(r ...ledger.Reason) effect {
	return when(func(p ledger.Posting) bool { return p.To == ledger.Pieces && slices.Contains(r, p.Reason) })
}

// plus and less combine effects.
func plus(es ...effect) effect {
	return func(p ledger.Posting) money.Cents {
		var sum money.Cents
		for _, e := range es {
			sum += e(p)
		}
		return sum
	}
}

func less(e effect) effect { return func(p ledger.Posting) money.Cents { return -e(p) } }

var (
	receipts  = plus(reasons(ledger.ReasonSale, ledger.ReasonPartPayment), less(reasons(ledger.ReasonRefund, ledger.ReasonReturn)))
	bookCost  = intoPiece(ledger.ReasonAcquired, ledger.ReasonPart, ledger.ReasonMove, ledger.ReasonOutsideWork, ledger.ReasonSupply, ledger.ReasonRecount)
	selling   = plus(onAccount(ledger.SellingCosts), onAccount(ledger.Expenses))
	netProfit = plus(receipts, less(onAccount(ledger.CostOfSales)), less(onAccount(ledger.SellingCosts)), less(onAccount(ledger.Trips)),
		less(onAccount(ledger.Expenses)), less(onAccount(ledger.EquipmentCost)), less(onAccount(ledger.ShelfLosses)),
		less(onAccount(ledger.Lost)), less(onAccount(ledger.Other)))
)

// pieceFigures are the figures of a piece that are sums of postings.
var pieceFigures = map[string]effect{
	"receipts":              receipts,
	"acquisition":           intoPiece(ledger.ReasonAcquired),
	"parts":                 intoPiece(ledger.ReasonPart, ledger.ReasonMove),
	"outside_work":          intoPiece(ledger.ReasonOutsideWork),
	"supplies":              intoPiece(ledger.ReasonSupply, ledger.ReasonRecount),
	"book_cost":             bookCost,
	"selling_costs":         selling,
	"trips":                 onAccount(ledger.Trips),
	"overhead":              onAccount(ledger.Allotted),
	"profit":                plus(receipts, less(bookCost), less(selling), less(onAccount(ledger.Trips))),
	"profit_after_overhead": plus(receipts, less(bookCost), less(selling), less(onAccount(ledger.Trips)), less(onAccount(ledger.Allotted))),
	"sold_less_bought":      plus(receipts, less(intoPiece(ledger.ReasonAcquired))),
	"held":                  reasons(ledger.ReasonPartPayment),
	"tied_up":               onAccount(ledger.Pieces),
}

// statementFigures are the statement's lines but for the expense groups.
var statementFigures = map[string]effect{
	"gross_receipts":      reasons(ledger.ReasonSale, ledger.ReasonPartPayment),
	"refunds":             reasons(ledger.ReasonRefund, ledger.ReasonReturn),
	"net_receipts":        receipts,
	"cost_of_pieces_sold": onAccount(ledger.CostOfSales),
	"gross_profit":        plus(receipts, less(onAccount(ledger.CostOfSales))),
	"selling_costs":       onAccount(ledger.SellingCosts),
	"trips":               onAccount(ledger.Trips),
	"expenses":            onAccount(ledger.Expenses),
	"equipment":           onAccount(ledger.EquipmentCost),
	"shelf_losses":        onAccount(ledger.ShelfLosses),
	"pieces_lost":         onAccount(ledger.Lost),
	"other_income":        less(onAccount(ledger.Other)),
	"net_profit":          netProfit,
	"kept_or_donated":     onAccount(ledger.Owner),
	"sales_tax_owed":      less(onAccount(ledger.TaxOwed)),
	"tied_up":             plus(onAccount(ledger.Pieces), onAccount(ledger.Shelf)),
}

// stockFigures are the roll-forward of pieces.
var stockFigures = map[string]effect{
	"acquired":     intoPiece(ledger.ReasonAcquired),
	"parts":        intoPiece(ledger.ReasonPart, ledger.ReasonMove),
	"outside_work": intoPiece(ledger.ReasonOutsideWork),
	"supplies":     intoPiece(ledger.ReasonSupply, ledger.ReasonRecount),
	"returned":     intoPiece(ledger.ReasonReturned),
	"sold":         when(func(p ledger.Posting) bool { return p.From == ledger.Pieces && p.To == ledger.CostOfSales }),
	"closing":      onAccount(ledger.Pieces),
	"removed":      when(func(p ledger.Posting) bool { return p.From == ledger.Pieces && p.To != ledger.CostOfSales }),
}

// supplyFigures are a supply's shelf line.
var supplyFigures = map[string]effect{
	"bought":  when(func(p ledger.Posting) bool { return p.To == ledger.Shelf }),
	"used":    when(func(p ledger.Posting) bool { return p.From == ledger.Shelf && p.To == ledger.Pieces }),
	"lost":    when(func(p ledger.Posting) bool { return p.From == ledger.Shelf && p.To == ledger.ShelfLosses }),
	"closing": onAccount(ledger.Shelf),
}

// Names of what can be asked of each subject, in order.
func PieceFigureNames() []string     { return names(pieceFigures) }
func StatementFigureNames() []string { return names(statementFigures) }
func StockFigureNames() []string     { return names(stockFigures) }
func SupplyFigureNames() []string    { return names(supplyFigures) }

func names[T any](m map[string]T) []string {
	out := make([]string, 0, len(m))
	for k := range m {
		out = append(out, k)
	}
	slices.Sort(out)
	return out
}

// BehindPiece is what is under a piece's figure over its life up to the month.
func BehindPiece(l *costing.Ledger, piece, figure string, to calendar.Month) (Behind, bool) {
	e, ok := pieceFigures[key(figure)]
	if !ok {
		return Behind{}, false
	}
	return gather(upTo(l, to, func(p ledger.Posting) bool { return p.Piece == piece }), e), true
}

// BehindSupply is what is under a supply's shelf line over all time up to the month.
func BehindSupply(l *costing.Ledger, supply, figure string, to calendar.Month) (Behind, bool) {
	e, ok := supplyFigures[key(figure)]
	if !ok {
		return Behind{}, false
	}
	return gather(upTo(l, to, func(p ledger.Posting) bool { return p.Supply == supply }), e), true
}

// BehindStatement is what is under a line of a month's statement; an expense
// group goes by its own name. Sales tax owed and what is tied up are over all
// time.
func BehindStatement(l *costing.Ledger, figure string, m calendar.Month) (Behind, bool) {
	e, ok := statementFigures[key(figure)]
	if !ok {
		group := strings.ToLower(strings.ReplaceAll(figure, "_", " "))
		e = when(func(p ledger.Posting) bool { return p.To == ledger.Expenses && strings.ToLower(p.Group) == group })
		ok = slices.ContainsFunc(l.Books.Expenses, func(x ledger.Expense) bool { return strings.ToLower(x.Group) == group })
	}
	if !ok {
		return Behind{}, false
	}
	if key(figure) == "tied_up" {
		return tiedUp(l, m), true
	}
	return gather(upTo(l, m, func(p ledger.Posting) bool { return p.Month == m || key(figure) == "sales_tax_owed" }), e), true
}

// BehindStock is what is under a line of the month's roll-forward of pieces;
// its closing is over all time.
func BehindStock(l *costing.Ledger, figure string, m calendar.Month) (Behind, bool) {
	e, ok := stockFigures[key(figure)]
	if !ok {
		return Behind{}, false
	}
	return gather(upTo(l, m, func(p ledger.Posting) bool { return p.Month == m || key(figure) == "closing" }), e), true
}

// key takes a figure's name as it is printed: with spaces or dashes for
// underscores, in any case, with the less: or apart: before it.
func key(figure string) string {
	k := strings.ToLower(strings.TrimSpace(figure))
	for _, before := range []string{"less:", "apart:", "in it:"} {
		if rest, ok := strings.CutPrefix(k, before); ok {
			k = strings.TrimSpace(rest)
		}
	}
	k = strings.NewReplacer(" ", "_", "-", "_").Replace(k)
	if name, ok := printedAs[k]; ok {
		return name
	}
	return k
}

// printedAs is what pages call a figure where figures.json has another name.
var printedAs = map[string]string{
	"after_everything": "profit", "after_overhead": "profit_after_overhead", "after_its_share_of_overhead": "profit_after_overhead",
	"overheads": "overhead", "share_of_overhead": "overhead", "book_cost_so_far": "book_cost", "part_payments_held": "held",
	"per_hour": "profit_per_hour", "an_hour": "profit_per_hour", "hourly": "profit_per_hour", "profit_an_hour": "profit_per_hour", "per_hour_of_work": "profit_per_hour",
	"return": "return_on_cost", "return_per_year": "return_a_year", "held_days": "days_held", "days": "days_held", "hours_so_far": "hours",
	"money_tied_up": "tied_up", "tied_up_in_pieces_and_shelf": "tied_up",
	"refunds_and_returns": "refunds", "equipment_written_off_at_once": "equipment", "pieces_lost,_at_book_cost": "pieces_lost",
	"pieces_kept_or_donated,_at_book_cost": "kept_or_donated", "sales_tax_owed_at_the_end": "sales_tax_owed", "removed_unsold": "removed",
}

func upTo(l *costing.Ledger, to calendar.Month, match func(ledger.Posting) bool) []ledger.Posting {
	var out []ledger.Posting
	for _, p := range l.Postings() {
		if p.Month <= to && match(p) {
			out = append(out, p)
		}
	}
	return out
}
