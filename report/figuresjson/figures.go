// Package figuresjson writes figures.json, the contract for other programs.
package figuresjson

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math/big"
	"time"

	"piecebook/ledger/calendar"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
)

// Schema names the contract of figures.json; another number is another contract.
const Schema = "piecebook/figures/1"

// The contract's types: the order of the fields is the order of the keys. What
// has no value is null, so everything that may have none is a pointer.
type figuresOut struct {
	Schema    string       `json:"schema"`
	Period    string       `json:"period"`
	Currency  string       `json:"currency"`
	Pieces    []pieceOut   `json:"pieces"`
	Shelf     []shelfOut   `json:"shelf"`
	Statement statementOut `json:"statement"`
	Stock     stockOut     `json:"stock"`
	TieOut    []tieOut     `json:"tie_out"`
}

type pieceOut struct {
	Piece               string       `json:"piece"`
	Kind                string       `json:"kind"`
	Status              string       `json:"status"`
	GotOn               *string      `json:"got_on"`
	SoldOn              *string      `json:"sold_on"`
	Area                *string      `json:"area"`
	Hours               string       `json:"hours"`
	Receipts            money.Cents  `json:"receipts"`
	Held                money.Cents  `json:"held"`
	Acquisition         money.Cents  `json:"acquisition"`
	Parts               money.Cents  `json:"parts"`
	OutsideWork         money.Cents  `json:"outside_work"`
	Supplies            money.Cents  `json:"supplies"`
	SuppliesStaying     money.Cents  `json:"supplies_staying"`
	BookCost            money.Cents  `json:"book_cost"`
	SellingCosts        money.Cents  `json:"selling_costs"`
	Trips               money.Cents  `json:"trips"`
	Profit              *money.Cents `json:"profit"`
	Overhead            money.Cents  `json:"overhead"`
	ProfitAfterOverhead *money.Cents `json:"profit_after_overhead"`
	ProfitPerHour       *money.Cents `json:"profit_per_hour"`
	PerHourAfter        *money.Cents `json:"profit_per_hour_after_overhead"`
	Margin              *string      `json:"margin"`
	DaysHeld            *int         `json:"days_held"`
	SoldLessBought      *money.Cents `json:"sold_less_bought"`
	SupplyShares        []shareOut   `json:"supply_shares"`
}

type shareOut struct {
	Supply     string         `json:"supply"`
	Month      calendar.Month `json:"month"`
	CoatedArea *string        `json:"coated_area"`
	Cost       money.Cents    `json:"cost"`
}

type shelfOut struct {
	Supply  string      `json:"supply"`
	Opening money.Cents `json:"opening"`
	Bought  money.Cents `json:"bought"`
	Used    money.Cents `json:"used"`
	Lost    money.Cents `json:"lost"`
	Closing money.Cents `json:"closing"`
	Left    *string     `json:"left"`
	Basis   string      `json:"basis"`
}

type statementOut struct {
	GrossReceipts          money.Cents            `json:"gross_receipts"`
	Refunds                money.Cents            `json:"refunds"`
	NetReceipts            money.Cents            `json:"net_receipts"`
	CostOfPiecesSold       money.Cents            `json:"cost_of_pieces_sold"`
	GrossProfit            money.Cents            `json:"gross_profit"`
	SellingCosts           money.Cents            `json:"selling_costs"`
	Trips                  money.Cents            `json:"trips"`
	Expenses               map[string]money.Cents `json:"expenses"` // written by group, in order
	Equipment              money.Cents            `json:"equipment"`
	ShelfLosses            money.Cents            `json:"shelf_losses"`
	PiecesLost             money.Cents            `json:"pieces_lost"`
	OtherIncome            money.Cents            `json:"other_income"`
	NetProfit              money.Cents            `json:"net_profit"`
	PartPaymentsUnfinished money.Cents            `json:"part_payments_unfinished"`
	KeptOrDonated          money.Cents            `json:"kept_or_donated"`
	SalesTaxOwed           money.Cents            `json:"sales_tax_owed"`
}

type stockOut struct {
	Opening     money.Cents `json:"opening"`
	Acquired    money.Cents `json:"acquired"`
	Parts       money.Cents `json:"parts"`
	OutsideWork money.Cents `json:"outside_work"`
	Supplies    money.Cents `json:"supplies"`
	Returned    money.Cents `json:"returned"`
	Sold        money.Cents `json:"sold"`
	Removed     money.Cents `json:"removed"`
	Closing     money.Cents `json:"closing"`
}

type tieOut struct {
	Name       string      `json:"name"`
	Difference money.Cents `json:"difference"`
}

// Month is figures.json, the contract for other programs: figures and
// nothing else, with the contract's keys in its order.
func Month(f figures.Figures) ([]byte, error) { return encoded(figuresOf(f)) }

// figuresOf lays a period's figures out by the contract.
func figuresOf(f figures.Figures) figuresOut {
	s := f.Statement
	out := figuresOut{Schema: Schema, Period: periodOf(f.From, f.To), Currency: f.Currency,
		Pieces: []pieceOut{}, Shelf: []shelfOut{}, TieOut: []tieOut{}, Statement: statementOut(s), Stock: stockOut(f.Stock)}
	if out.Statement.Expenses == nil {
		out.Statement.Expenses = map[string]money.Cents{}
	}
	for _, p := range f.Pieces {
		out.Pieces = append(out.Pieces, pieceJSON(p))
	}
	for _, l := range f.Shelf {
		out.Shelf = append(out.Shelf, shelfOut{l.Supply.Name, l.Opening, l.Bought, l.Used, l.Lost, l.Closing,
			atMost(l.Left, 4), string(l.Basis)})
	}
	for _, t := range f.TieOut {
		out.TieOut = append(out.TieOut, tieOut{t.Name, t.Difference})
	}
	return out
}

// encoded writes a contract's value as JSON for people and programs.
func encoded(out any) ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false) // a name with & stays readable
	e.SetIndent("", " ")
	if err := e.Encode(out); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

func pieceJSON(p figures.Piece) pieceOut {
	out := pieceOut{Piece: p.Record.ID, Kind: p.Record.Kind, Status: p.Status, GotOn: day(p.Record.GotOn),
		SoldOn: day(p.SoldOn), Area: fixed(p.Record.Area, 2), Hours: "0", Receipts: p.Receipts, Held: p.Held,
		Acquisition: p.Acquisition, Parts: p.Parts, OutsideWork: p.OutsideWork, Supplies: p.Supplies,
		SuppliesStaying: p.SuppliesStaying, BookCost: p.BookCost, SellingCosts: p.SellingCosts, Trips: p.Trips,
		Profit: p.Profit, Overhead: p.Overhead, ProfitAfterOverhead: p.ProfitAfterOverhead, ProfitPerHour: p.ProfitPerHour,
		PerHourAfter: p.ProfitPerHourAfterOverhead, Margin: fixed(p.Margin, 4), DaysHeld: p.DaysHeld,
		SoldLessBought: p.SoldLessBought, SupplyShares: []shareOut{}}
	if h := atMost(p.Hours, 4); h != nil {
		out.Hours = *h
	}
	for _, s := range p.Shares {
		if s.Cost != 0 {
			out.SupplyShares = append(out.SupplyShares, shareOut{s.Supply, s.Month, fixed(s.Coated, 2), s.Cost})
		}
	}
	return out
}

// periodOf is 2026-03 for a month, 2026 for a calendar year, and 2026-01/2026-03
// (ISO 8601) for other spans.
func periodOf(from, to calendar.Month) string {
	switch {
	case from == to:
		return to.String()
	case to-from == 11 && from.Of() == time.January:
		return fmt.Sprintf("%04d", to.Year())
	}
	return from.String() + "/" + to.String()
}

func day(d calendar.Date) *string {
	if d.IsZero() {
		return nil
	}
	s := d.String()
	return &s
}

func fixed(x *big.Rat, decimals int) *string {
	if x == nil {
		return nil
	}
	s := money.Fixed(x, decimals)
	return &s
}

func atMost(x *big.Rat, decimals int) *string {
	if x == nil {
		return nil
	}
	s := money.AtMost(x, decimals)
	return &s
}
