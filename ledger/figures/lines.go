package figures

import (
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/money"
)

// ID names a line. It is the line's key in figures.json, and with blanks for
// underscores what a form's line of templates/data takes.
type ID string

// Scope says what a line is a figure of; a line may be one of several.
type Scope uint

// The scopes.
const (
	OfPiece          Scope = 1 << iota // a piece's money over its life
	OfStatement                        // the income statement of a period
	OfStock                            // the roll-forward of pieces at book cost
	OfShelf                            // one supply's roll-forward
	OfTaxYear                          // an amount that a form's line may take
	OfChannel                          // a channel's sales
	OfPayout                           // what a channel owes the shop
	OfReconciliation                   // a term between the pieces' profits and net profit
)

// Span says over which months a line is summed.
type Span int

// The spans.
const (
	Within Span = iota // the period
	UpTo               // all time up to the period's end
	Before             // all time before the period
)

// Condition is what accounts and reasons cannot say of a posting; code that sums
// the line knows how to judge it.
type Condition int

// The conditions. Those of a tax year depend on its treatment of supplies and
// on the year's limit for equipment.
const (
	Always        Condition = iota
	Unfinished              // its piece has not left by the period's end
	StockSupply             // its supply is part of stock
	ExpenseSupply           // its supply counts when it leaves the shelf
	StockCost               // without the supplies that are no part of stock
	WithinLimit             // equipment within the limit for writing off at once
	AboveLimit              // equipment above it
)

// Rule says which postings count in a line: those that agree with all that is
// given. Their cents are added, with Less taken away.
type Rule struct {
	From, To ledger.Account  // blank: any
	Reasons  []ledger.Reason // nil: any
	If       Condition
	Less     bool
}

// Counts says that a posting agrees with the rule's accounts and reasons; the
// condition is the caller's to judge.
func (r *Rule) Counts(p *ledger.Posting) bool {
	return (r.From == "" || r.From == p.From) && (r.To == "" || r.To == p.To) &&
		(r.Reasons == nil || slices.Contains(r.Reasons, p.Reason))
}

// Add is a line that a sum adds, or with Less takes away.
type Add struct {
	ID   ID
	Less bool
}

// Line is one figure: a sum of the postings that its rules find, or of other
// lines of the table above it.
type Line struct {
	ID    ID
	Of    Scope
	Rules []Rule
	Sum   []Add
	Over  Span
	// Again marks a figure beside the others: postings in it may count in
	// another line of its scope too.
	Again bool
	// ByGroup marks a line that is shown by the postings' groups, each apart.
	ByGroup bool
}

// The lines.
const (
	LineGrossReceipts ID = "gross_receipts"
	LineRefunds       ID = "refunds"
	LineNetReceipts   ID = "net_receipts"
	LineReceipts      ID = "receipts"
	LineAcquisition   ID = "acquisition"
	LineAcquired      ID = "acquired"
	LineParts         ID = "parts"
	LineOutsideWork   ID = "outside_work"
	LineSupplies      ID = "supplies"
	LineOpening       ID = "opening"
	LineReturned      ID = "returned"
	LineSold          ID = "sold"
	LineRemoved       ID = "removed"
	LineClosing       ID = "closing"
	LineBought        ID = "bought"
	LineUsed          ID = "used"
	LineLost          ID = "lost"
	LineCostOfSales   ID = "cost_of_pieces_sold"
	LineGrossProfit   ID = "gross_profit"
	LineSellingCosts  ID = "selling_costs"
	LineTrips         ID = "trips"
	LineExpenses      ID = "expenses"
	LineEquipment     ID = "equipment"
	LineShelfLosses   ID = "shelf_losses"
	LinePiecesLost    ID = "pieces_lost"
	LineAllCosts      ID = "all_costs"
	LineOtherIncome   ID = "other_income"
	LineNetProfit     ID = "net_profit"
	LineUnfinished    ID = "part_payments_unfinished"
	LineKept          ID = "kept_or_donated"
	LineSalesTaxOwed  ID = "sales_tax_owed"
	LineTiedUp        ID = "tied_up"
	LineOverhead      ID = "overhead"
	LineReceived      ID = "received_when_lost"
	LineBookCost      ID = "book_cost"
	LineProfit        ID = "profit"
	LineAfterOverhead ID = "profit_after_overhead"
	LineSoldLess      ID = "sold_less_bought"
	LineHeld          ID = "held"
	LineFees          ID = "fees"
	LineDelivery      ID = "delivery_cost"
	LineTaken         ID = "taken"
	// Amounts of a tax year alone.
	LineOpeningStock   ID = "opening_stock"
	LineClosingStock   ID = "closing_stock"
	LineSuppliesBought ID = "supplies_bought"
	LineSuppliesUsed   ID = "supplies_when_used"
	LineAtOnce         ID = "equipment_at_once"
	LineAboveLimit     ID = "equipment_above_the_limit"
	LineDepreciation   ID = "depreciation"
	// Terms of the reconciliation of profit alone.
	LineCameBack     ID = "back_from_cost_of_sales"
	LineLateCost     ID = "late_cost_of_sales"
	LineSoldCost     ID = "cost_of_sales_when_sold"
	LineShopExpenses ID = "expenses_posted"
	LineShopTrips    ID = "trips_posted"
)

// The kinds of postings that several lines count.
var (
	sales       = Rule{Reasons: []ledger.Reason{ledger.ReasonSale, ledger.ReasonPartPayment}}
	givenBack   = Rule{Reasons: []ledger.Reason{ledger.ReasonRefund, ledger.ReasonReturn}}
	acquired    = Rule{To: ledger.Pieces, Reasons: []ledger.Reason{ledger.ReasonAcquired}}
	partPayment = Rule{Reasons: []ledger.Reason{ledger.ReasonPartPayment}}
	toExpenses  = Rule{To: ledger.Expenses}
	toTrips     = Rule{To: ledger.Trips}
	toSelling   = Rule{To: ledger.SellingCosts}
)

// less is a rule's postings taken away.
func less(r Rule) Rule {
	r.Less = true
	return r
}

// gain is what an account gains: what came to it less what left it.
func gain(a ledger.Account, c Condition) []Rule {
	return []Rule{{To: a, If: c}, {From: a, If: c, Less: true}}
}

func rules(r ...Rule) []Rule          { return r }
func sum(a ...Add) []Add              { return a }
func add(id ID) Add                   { return Add{ID: id} }
func subtract(id ID) Add              { return Add{ID: id, Less: true} }
func reasons(r ...ledger.Reason) Rule { return Rule{Reasons: r} }

// Lines is every figure that is a sum of postings, in the order that pages
// print them. A posting counts in at most one line of a scope, but for those
// marked Again. The effect of a line on net profit is the sign that the sum of
// net profit has it with.
var Lines = []Line{
	{ID: LineGrossReceipts, Of: OfStatement | OfTaxYear | OfChannel, Rules: rules(sales)},
	{ID: LineRefunds, Of: OfStatement | OfTaxYear | OfChannel, Rules: rules(givenBack)},
	{ID: LineNetReceipts, Of: OfStatement, Sum: sum(add(LineGrossReceipts), subtract(LineRefunds))},
	{ID: LineReceipts, Of: OfPiece, Rules: rules(sales, less(givenBack))},

	{ID: LineOpening, Of: OfStock, Rules: gain(ledger.Pieces, Always), Over: Before, Again: true},
	{ID: LineOpening, Of: OfShelf, Rules: gain(ledger.Shelf, Always), Over: Before, Again: true},
	{ID: LineAcquisition, Of: OfPiece, Rules: rules(acquired)},
	{ID: LineAcquired, Of: OfStock | OfTaxYear, Rules: rules(acquired)},
	{ID: LineParts, Of: OfPiece | OfStock | OfTaxYear, Rules: rules(Rule{To: ledger.Pieces, Reasons: []ledger.Reason{ledger.ReasonPart, ledger.ReasonMove}})},
	{ID: LineOutsideWork, Of: OfPiece | OfStock | OfTaxYear, Rules: rules(Rule{To: ledger.Pieces, Reasons: []ledger.Reason{ledger.ReasonOutsideWork}})},
	{ID: LineSupplies, Of: OfPiece | OfStock, Rules: rules(Rule{From: ledger.Shelf, To: ledger.Pieces})},
	{ID: LineReturned, Of: OfStock, Rules: rules(Rule{To: ledger.Pieces, Reasons: []ledger.Reason{ledger.ReasonReturned}})},
	{ID: LineSold, Of: OfStock, Rules: rules(Rule{From: ledger.Pieces, To: ledger.CostOfSales})},
	{ID: LineRemoved, Of: OfStock, Rules: rules(Rule{From: ledger.Pieces, To: ledger.Lost}, Rule{From: ledger.Pieces, To: ledger.Owner})},
	{ID: LineClosing, Of: OfStock, Rules: gain(ledger.Pieces, Always), Over: UpTo, Again: true},
	{ID: LineBought, Of: OfShelf, Rules: rules(Rule{To: ledger.Shelf})},
	{ID: LineUsed, Of: OfShelf, Rules: rules(Rule{From: ledger.Shelf, To: ledger.Pieces})},
	{ID: LineLost, Of: OfShelf, Rules: rules(Rule{From: ledger.Shelf, To: ledger.ShelfLosses})},
	{ID: LineClosing, Of: OfShelf, Rules: gain(ledger.Shelf, Always), Over: UpTo, Again: true},

	{ID: LineCostOfSales, Of: OfStatement, Rules: gain(ledger.CostOfSales, Always)},
	{ID: LineGrossProfit, Of: OfStatement, Sum: sum(add(LineNetReceipts), subtract(LineCostOfSales))},
	{ID: LineSellingCosts, Of: OfStatement, Rules: rules(toSelling)},
	{ID: LineSellingCosts, Of: OfPiece, Rules: rules(toSelling, toExpenses)},
	{ID: LineTrips, Of: OfPiece | OfStatement | OfTaxYear | OfChannel, Rules: rules(toTrips)},
	{ID: LineExpenses, Of: OfStatement | OfTaxYear | OfChannel, Rules: rules(toExpenses), ByGroup: true},
	{ID: LineEquipment, Of: OfStatement, Rules: rules(Rule{To: ledger.EquipmentCost})},
	{ID: LineShelfLosses, Of: OfStatement, Rules: gain(ledger.ShelfLosses, Always)},
	{ID: LinePiecesLost, Of: OfStatement, Rules: gain(ledger.Lost, Always)},
	{ID: LineAllCosts, Of: OfStatement, Sum: sum(add(LineSellingCosts), add(LineTrips), add(LineExpenses), add(LineEquipment), add(LineShelfLosses), add(LinePiecesLost))},
	{ID: LineOtherIncome, Of: OfStatement | OfTaxYear, Rules: rules(Rule{From: ledger.Other})},
	{ID: LineNetProfit, Of: OfStatement, Sum: sum(add(LineGrossProfit), subtract(LineAllCosts), add(LineOtherIncome))},
	{ID: LineUnfinished, Of: OfStatement, Rules: rules(Rule{Reasons: partPayment.Reasons, If: Unfinished}), Again: true},
	{ID: LineKept, Of: OfStatement, Rules: gain(ledger.Owner, Always)},
	{ID: LineKept, Of: OfTaxYear, Rules: gain(ledger.Owner, StockCost)},
	{ID: LineSalesTaxOwed, Of: OfStatement, Rules: rules(Rule{From: ledger.TaxOwed}, Rule{To: ledger.TaxOwed, Less: true}), Over: UpTo, Again: true},
	{ID: LineTiedUp, Of: OfStatement, Rules: slices.Concat(gain(ledger.Pieces, Always), gain(ledger.Shelf, Always)), Over: UpTo, Again: true},

	{ID: LineOverhead, Of: OfPiece, Rules: rules(Rule{To: ledger.Allotted})},
	{ID: LineReceived, Of: OfPiece, Rules: rules(reasons(ledger.ReasonReceived))},
	{ID: LineBookCost, Of: OfPiece, Sum: sum(add(LineAcquisition), add(LineParts), add(LineOutsideWork), add(LineSupplies))},
	{ID: LineProfit, Of: OfPiece, Sum: sum(add(LineReceipts), subtract(LineBookCost), subtract(LineSellingCosts), subtract(LineTrips))},
	{ID: LineAfterOverhead, Of: OfPiece, Sum: sum(add(LineProfit), subtract(LineOverhead))},
	{ID: LineSoldLess, Of: OfPiece, Sum: sum(add(LineReceipts), subtract(LineAcquisition))},
	{ID: LineHeld, Of: OfPiece, Rules: rules(partPayment), Again: true},
	{ID: LineTiedUp, Of: OfPiece, Rules: gain(ledger.Pieces, Always), Again: true},

	{ID: LineFees, Of: OfTaxYear | OfChannel | OfPayout, Rules: rules(reasons(ledger.ReasonFee, ledger.ReasonCardFee))},
	{ID: LineDelivery, Of: OfTaxYear | OfChannel, Rules: rules(reasons(ledger.ReasonDelivery))},
	{ID: LineTaken, Of: OfPayout, Rules: rules(Rule{From: ledger.Receipts, To: ledger.Bank}, Rule{From: ledger.TaxOwed, To: ledger.Bank},
		Rule{From: ledger.Bank, To: ledger.Receipts, Less: true}, Rule{From: ledger.Bank, To: ledger.TaxOwed, Less: true})},

	{ID: LineOpeningStock, Of: OfTaxYear, Rules: slices.Concat(gain(ledger.Pieces, StockCost), gain(ledger.Shelf, StockSupply)), Over: Before, Again: true},
	{ID: LineSuppliesBought, Of: OfTaxYear, Rules: rules(Rule{To: ledger.Shelf, If: StockSupply})},
	{ID: LineSuppliesUsed, Of: OfTaxYear, Rules: rules(Rule{From: ledger.Shelf, If: ExpenseSupply})},
	{ID: LineClosingStock, Of: OfTaxYear, Rules: slices.Concat(gain(ledger.Pieces, StockCost), gain(ledger.Shelf, StockSupply)), Over: UpTo, Again: true},
	{ID: LineAtOnce, Of: OfTaxYear, Rules: rules(Rule{To: ledger.EquipmentCost, If: WithinLimit})},
	{ID: LineAboveLimit, Of: OfTaxYear, Rules: rules(Rule{To: ledger.EquipmentCost, If: AboveLimit})},
	{ID: LineDepreciation, Of: OfTaxYear, Rules: rules(Rule{To: ledger.WrittenOff})},

	{ID: LineCameBack, Of: OfReconciliation, Rules: rules(Rule{From: ledger.CostOfSales, Reasons: []ledger.Reason{ledger.ReasonReturned}})},
	{ID: LineLateCost, Of: OfReconciliation, Rules: rules(Rule{To: ledger.CostOfSales, Reasons: []ledger.Reason{ledger.ReasonLate}})},
	{ID: LineSoldCost, Of: OfReconciliation, Rules: rules(Rule{To: ledger.CostOfSales, Reasons: []ledger.Reason{ledger.ReasonSold}})},
	{ID: LineShopExpenses, Of: OfReconciliation, Rules: rules(toExpenses)},
	{ID: LineShopTrips, Of: OfReconciliation, Rules: rules(toTrips)},
}

// Covers says that a posting's month is in the line's span, of the period
// from..to.
func (l *Line) Covers(m, from, to calendar.Month) bool {
	switch l.Over {
	case Before:
		return m < from
	case UpTo:
		return m <= to
	}
	return m >= from && m <= to
}

// terms is what each line of the table adds up: of a sum the places of its
// lines in the table, with their signs.
var terms = resolve()

type termAt struct {
	at   int
	less bool
}

func resolve() [][]termAt {
	out := make([][]termAt, len(Lines))
	for i, l := range Lines {
		for _, a := range l.Sum {
			at := index(l.Of, a.ID)
			if at < 0 || at >= i {
				panic("the line " + string(l.ID) + " adds up " + string(a.ID) + ", which does not stand above it")
			}
			out[i] = append(out[i], termAt{at, a.Less})
		}
	}
	return out
}

// index is a line's place in the table; -1 where the scope has none of the name.
func index(of Scope, id ID) int {
	return slices.IndexFunc(Lines, func(l Line) bool { return l.Of&of != 0 && l.ID == id })
}

// Find is the scope's line of that name; nil where it has none.
func Find(of Scope, id ID) *Line {
	if at := index(of, id); at >= 0 {
		return &Lines[at]
	}
	return nil
}

// LinesOf is the scope's lines in order.
func LinesOf(of Scope) []*Line {
	var out []*Line
	for i := range Lines {
		if Lines[i].Of&of != 0 {
			out = append(out, &Lines[i])
		}
	}
	return out
}

// LineOf is the line of a scope that a posting counts in, and its cents there;
// nil where it counts in none. Conditions are not judged, and lines beside the
// others are passed over.
func LineOf(of Scope, p *ledger.Posting) (*Line, Sign) {
	for l := range ledger.Each(Lines) {
		if l.Of&of == 0 || l.Again {
			continue
		}
		if sign := l.Sign(p); sign != 0 {
			return l, sign
		}
	}
	return nil, 0
}

// Sign is 1 where something is added, -1 where it is taken away, 0 where it
// does not count.
type Sign int

// Sign is how the line's own rules count a posting: what it adds to one account
// of the line and takes from another comes to nothing.
func (l *Line) Sign(p *ledger.Posting) Sign {
	var sign Sign
	for i := range l.Rules {
		if l.Rules[i].Counts(p) {
			sign += signOf(l.Rules[i].Less)
		}
	}
	return sign
}

func signOf(less bool) Sign {
	if less {
		return -1
	}
	return 1
}

// Leaf is a line with rules that another adds up in the end, with its sign there.
type Leaf struct {
	*Line
	Sign Sign
}

// Adds is what a posting adds to the line that the leaf is of. Conditions are
// not judged.
func (l Leaf) Adds(p *ledger.Posting) money.Cents {
	return money.Cents(l.Sign*l.Line.Sign(p)) * p.Cents
}

// Leaves are what a line adds up in the end; a line with rules is its own.
func Leaves(of Scope, id ID) []Leaf {
	var out []Leaf
	var walk func(at int, sign Sign)
	walk = func(at int, sign Sign) {
		if Lines[at].Sum == nil {
			out = append(out, Leaf{&Lines[at], sign})
		}
		for _, t := range terms[at] {
			walk(t.at, sign*signOf(t.less))
		}
	}
	if at := index(of, id); at >= 0 {
		walk(at, 1)
	}
	return out
}

// InSum says that a line with rules is one of those that another adds up.
func InSum(of Scope, sum, id ID) bool {
	return slices.ContainsFunc(Leaves(of, sum), func(l Leaf) bool { return l.ID == id })
}
