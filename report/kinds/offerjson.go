package kinds

import (
	"encoding/json"

	"piecebook/ledger/money"
	"piecebook/ledger/offer"
)

type offerJSON struct {
	Schema   string       `json:"schema"`
	Kind     string       `json:"kind"`
	Target   money.Cents  `json:"target_hourly"`
	Top      *answerJSON  `json:"most_to_pay"`
	Even     answerJSON   `json:"break_even"`
	WalkAway bool         `json:"walk_away_even_when_free"`
	New      bool         `json:"no_history_of_the_kind"`
	Lines    []lineJSON   `json:"lines"`
	Inputs   []inputJSON  `json:"inputs"`
	Supplies []supplyJSON `json:"supplies"`
	Past     []pastJSON   `json:"past_pieces"`
	Others   int          `json:"pieces_of_other_kinds"`
	Swings   []swingJSON  `json:"sensitivities"`
}

type answerJSON struct {
	At       *money.Cents `json:"amount"`
	Low      *money.Cents `json:"low"`
	High     *money.Cents `json:"high"`
	Cautious *money.Cents `json:"three_chances_in_four"`
}

type lineJSON struct {
	Label  string       `json:"label"`
	Amount *money.Cents `json:"amount"`
}

type inputJSON struct {
	Label string  `json:"label"`
	Unit  string  `json:"unit"`
	N     int     `json:"pieces"`
	Own   *string `json:"own"`
	Shop  *string `json:"shop"`
	Used  *string `json:"used"`
	Given bool    `json:"given"`
}

type supplyJSON struct {
	Supply string       `json:"supply"`
	Amount *money.Cents `json:"amount"`
	Basis  string       `json:"basis"`
}

type pastJSON struct {
	Piece    string       `json:"piece"`
	Paid     money.Cents  `json:"paid"`
	Receipts money.Cents  `json:"receipts"`
	Hours    string       `json:"hours"`
	Worth    *money.Cents `json:"was_worth"`
}

type swingJSON struct {
	What   string       `json:"what"`
	Unit   string       `json:"unit"`
	By     *string      `json:"usual_difference"`
	Change *money.Cents `json:"offer_moves_by"`
}

// OfferJSON is an offer for other programs.
func OfferJSON(o offer.Offer) ([]byte, error) {
	out := offerJSON{Schema: OfferSchema, Kind: o.Kind, Target: o.Target, Even: answerToJSON(o.Even), WalkAway: o.WalkAway(), New: o.New(), Others: o.Others,
		Lines: []lineJSON{}, Inputs: []inputJSON{}, Supplies: []supplyJSON{}, Past: []pastJSON{}, Swings: []swingJSON{}}
	lines := o.Lines
	if o.NoHours {
		lines = lines[:len(lines)-2]
	} else {
		top := answerToJSON(o.Top)
		out.Top = &top
	}
	for _, l := range lines {
		out.Lines = append(out.Lines, lineJSON{l.Label, &l.Cents})
	}
	for _, i := range o.Inputs {
		out.Inputs = append(out.Inputs, inputJSON{i.Label, i.Unit, i.N, inputText(i.Own, i.Unit), inputText(i.Shop, i.Unit), inputText(i.Used, i.Unit), i.Given})
	}
	for _, s := range o.Supplies {
		out.Supplies = append(out.Supplies, supplyJSON{s.Name, &s.Cents, string(s.Basis)})
	}
	for _, p := range o.Past {
		x := pastJSON{p.Life.Record.ID, p.Life.Acquisition, p.Life.Receipts, money.AtMost(p.Life.Hours, 4), nil}
		if p.Timed {
			x.Worth = centsOf(p.Worth)
		}
		out.Past = append(out.Past, x)
	}
	for _, s := range o.Swings {
		out.Swings = append(out.Swings, swingJSON{s.What, s.Unit, inputText(s.By, s.Unit), centsOf(s.Change)})
	}
	return json.MarshalIndent(out, "", "  ")
}

func answerToJSON(a offer.Answer) answerJSON {
	out := answerJSON{At: centsOf(a.At)}
	if a.Known {
		out.Low, out.High, out.Cautious = centsOf(a.Low), centsOf(a.High), centsOf(a.Cautious)
	}
	return out
}

// inputText is an input in its own unit: money as amounts are, the rest to
// four decimals.
func inputText(x float64, unit string) *string {
	if unit != "money" {
		return shareText(x, true)
	}
	c := centsOf(x)
	if c == nil {
		return nil
	}
	s := c.String()
	return &s
}
