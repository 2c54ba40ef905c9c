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
	Costs    *money.Cents `json:"usual_shop_costs_per_hour"`
	Top      *priceJSON   `json:"most_to_pay"`
	Idle     *money.Cents `json:"most_to_pay_in_an_idle_week"`
	Even     *money.Cents `json:"break_even"`
	Asked    *askedJSON   `json:"asked"`
	WalkAway bool         `json:"walk_away_even_when_free"`
	New      bool         `json:"no_history_of_the_kind"`
	Lines    []lineJSON   `json:"lines"`
	Known    []knownJSON  `json:"known_of_this_piece"`
	Past     []pastJSON   `json:"past_pieces"`
	Sales    int          `json:"sales_of_the_kind"`
	Others   int          `json:"sales_of_other_kinds"`
}

type priceJSON struct {
	At       *money.Cents `json:"amount"`
	Low      *money.Cents `json:"low"`
	High     *money.Cents `json:"high"`
	Cautious *money.Cents `json:"three_chances_in_four"`
}

type askedJSON struct {
	Price  money.Cents `json:"price"`
	Buy    bool        `json:"buy"`
	Chance *string     `json:"chance"`
}

type lineJSON struct {
	Step   offer.Step  `json:"step"`
	Amount money.Cents `json:"amount"`
}

type knownJSON struct {
	What  string       `json:"what"`
	On    int          `json:"on_record"`
	Off   *string      `json:"guesses_off_by"`
	Usual *string      `json:"usual"`
	Taken *string      `json:"counted_on"`
	Moves *money.Cents `json:"moves_the_offer_by"`
}

type pastJSON struct {
	Piece    string       `json:"piece"`
	Paid     money.Cents  `json:"paid"`
	Receipts money.Cents  `json:"receipts"`
	Hours    string       `json:"hours"`
	Worth    *money.Cents `json:"was_worth"`
}

// OfferJSON is an offer for other programs. What rests on hours is null where
// none are written down and none were given.
func OfferJSON(o offer.Offer) ([]byte, error) {
	out := offerJSON{Schema: OfferSchema, Kind: o.Kind, Target: o.Target, Even: centsOf(o.Even), WalkAway: o.WalkAway(),
		New: o.New(), Sales: o.Sales, Others: o.Others, Lines: []lineJSON{}, Known: []knownJSON{}, Past: []pastJSON{}}
	if o.Costs.Known {
		out.Costs = &o.Costs.AnHour
	}
	if !o.NoHours {
		out.Top, out.Idle = &priceJSON{centsOf(o.Top.At), centsOf(o.Top.Low), centsOf(o.Top.High),
			centsOf(o.Top.Cautious)}, centsOf(o.Idle)
		for _, l := range o.Lines {
			out.Lines = append(out.Lines, lineJSON{l.Step, l.Cents})
		}
	}
	if o.Asked != nil {
		out.Asked = &askedJSON{o.Asked.Price, o.Asked.Buy, shareText(o.Asked.Chance, true)}
	}
	for _, k := range o.Known {
		x := knownJSON{What: k.What, On: k.On, Moves: centsOf(k.Moves)}
		if k.Off > 0 {
			x.Off, x.Usual, x.Taken = shareText(k.Off, true), guessedText(k, k.Usual), guessedText(k, k.Taken)
		}
		out.Known = append(out.Known, x)
	}
	for _, p := range o.Past {
		x := pastJSON{p.Life.Record.ID, p.Life.Acquisition, p.Life.Receipts, money.AtMost(p.Life.Hours, 4), nil}
		if p.Timed {
			x.Worth = centsOf(p.Worth)
		}
		out.Past = append(out.Past, x)
	}
	return json.MarshalIndent(out, "", "  ")
}

// guessedText is a guessed figure: money as amounts are, hours to four decimals.
func guessedText(k offer.Known, x float64) *string {
	if k.What == offer.Hours {
		return shareText(x, true)
	}
	c := centsOf(x)
	if c == nil {
		return nil
	}
	s := c.String()
	return &s
}
