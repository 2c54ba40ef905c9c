package kinds

import (
	"encoding/json"
	"fmt"
	"math"
	"math/big"

	"piecebook/ledger/kinds"
	"piecebook/ledger/money"
)

// The schemas of what kinds --json and offer --json give. Money is a string
// with two decimals; an estimate is one too, rounded half to even; what has no
// value is null.
const (
	KindsSchema = "piecebook/kinds/1"
	OfferSchema = "piecebook/offer/1"
)

type kindsJSON struct {
	Schema   string         `json:"schema"`
	Scope    string         `json:"scope"`
	Through  string         `json:"through"`
	Currency string         `json:"currency"`
	Target   money.Cents    `json:"target_hourly"`
	Kinds    []kindJSON     `json:"kinds"`
	Shop     kindJSON       `json:"shop"`
	Channels []channelJSON  `json:"channels"`
	Client   clientJSON     `json:"client"`
	Coverage []coverageJSON `json:"coverage"`
	Unlisted int            `json:"sold_without_listing"`
}

type kindJSON struct {
	Kind           string       `json:"kind"`
	Place          *int         `json:"place"`
	Got            int          `json:"got"`
	Finished       int          `json:"finished"`
	Sold           int          `json:"sold"`
	Lost           int          `json:"lost"`
	InStock        int          `json:"in_stock"`
	WithHours      int          `json:"with_hours"`
	Hours          string       `json:"hours"`
	Receipts       money.Cents  `json:"receipts"`
	SoldLessBought money.Cents  `json:"sold_less_bought"`
	Profit         money.Cents  `json:"profit"`
	Median         *money.Cents `json:"profit_median"`
	Least          *money.Cents `json:"profit_least"`
	Most           *money.Cents `json:"profit_most"`
	PerHour        *money.Cents `json:"profit_per_hour"`
	Error          *money.Cents `json:"profit_per_hour_error"`
	Expected       *money.Cents `json:"expected_per_hour"`
	Low            *money.Cents `json:"expected_low"`
	High           *money.Cents `json:"expected_high"`
	Beats          *string      `json:"chance_above_target"`
	Kept           *string      `json:"own_weight"`
	PerCoated      *money.Cents `json:"profit_per_coated_area"`
	Margin         *string      `json:"margin"`
	ReturnAYear    *string      `json:"return_a_year"`
	AtALoss        int          `json:"sold_at_a_loss"`
	Listed         int          `json:"listed"`
	Within         []soldJSON   `json:"sold_within"`
	BenchToListed  *daysJSON    `json:"days_bench_to_listing"`
	ListedToSold   *daysJSON    `json:"days_listing_to_sale"`
	Held           *daysJSON    `json:"days_held"`
	TiedUp         money.Cents  `json:"tied_up"`
	TiedHours      string       `json:"tied_up_hours"`
	Pieces         []string     `json:"pieces"`
}

type soldJSON struct {
	Days  int     `json:"days"`
	Share *string `json:"share"`
}

type daysJSON struct {
	N      int `json:"pieces"`
	Least  int `json:"least"`
	Median int `json:"median"`
	Most   int `json:"most"`
}

type channelJSON struct {
	Channel  string      `json:"channel"`
	Sold     int         `json:"sold"`
	Receipts money.Cents `json:"receipts"`
	Fees     money.Cents `json:"fees"`
	Delivery money.Cents `json:"delivery"`
	Rent     money.Cents `json:"rent"`
	Left     money.Cents `json:"left"`
}

type clientJSON struct {
	Done     int          `json:"done"`
	InHand   int          `json:"in_hand"`
	Receipts money.Cents  `json:"receipts"`
	Profit   money.Cents  `json:"profit"`
	Hours    string       `json:"hours"`
	PerHour  *money.Cents `json:"profit_per_hour"`
}

type coverageJSON struct {
	Supply   string       `json:"supply"`
	SharedBy string       `json:"shared_by"`
	Own      string       `json:"own"`
	Stated   *string      `json:"stated"`
	Usual    bool         `json:"stated_is_usual"`
	Counts   int          `json:"counts"`
	From     string       `json:"from"`
	To       string       `json:"to"`
	Price    *money.Cents `json:"last_price"`
}

// JSON is the kinds for other programs.
func JSON(r kinds.Report, currency string) ([]byte, error) {
	out := kindsJSON{Schema: KindsSchema, Scope: r.Scope.String(), Through: r.End.String(), Currency: currency, Target: r.Target,
		Kinds: []kindJSON{}, Shop: kindToJSON(r.Shop, true), Channels: []channelJSON{}, Coverage: []coverageJSON{}, Unlisted: r.Unlisted,
		Client: clientJSON{r.Clients.Done, r.Clients.InHand, r.Clients.Receipts, r.Clients.Result, money.AtMost(r.Clients.Hours, 4), r.Clients.PerHour}}
	for _, k := range r.Kinds {
		out.Kinds = append(out.Kinds, kindToJSON(k, k.Estimate.Ranked))
	}
	for _, c := range r.Channels {
		out.Channels = append(out.Channels, channelJSON{c.Name, c.Sold, c.Receipts, c.Fees, c.Delivery, c.Rent, c.Left})
	}
	for _, c := range r.Coverage {
		stated, usual := c.Stated()
		out.Coverage = append(out.Coverage, coverageJSON{c.Supply.Name, string(c.Supply.ShareBy), money.AtMost(c.Own, 4), ratText(stated), usual,
			c.Spans, c.From.String(), c.To.String(), c.Newest})
	}
	return json.MarshalIndent(out, "", "  ")
}

// kindToJSON is a kind; what is estimated of it only where that may be told.
func kindToJSON(k kinds.Kind, tell bool) kindJSON {
	e := k.Estimate
	out := kindJSON{Kind: k.Name, Got: k.Got, Finished: k.Finished, Sold: k.Sold, Lost: k.Lost, InStock: k.InStock, WithHours: k.Timed,
		Hours: money.AtMost(k.Hours, 4), Receipts: k.Receipts, SoldLessBought: k.SoldLessBought, Profit: k.Result, Median: k.Median, Least: k.Least, Most: k.Most,
		PerHour: k.PerHour, Error: centsOf(e.Error), PerCoated: k.PerCoated, Margin: ratText(k.Margin), ReturnAYear: ratText(k.ReturnAYear),
		AtALoss: k.AtALoss, Listed: k.Listed, Within: []soldJSON{}, BenchToListed: daysToJSON(k.BenchToListed), ListedToSold: daysToJSON(k.ListedToSold),
		Held: daysToJSON(k.Held), TiedUp: k.TiedUp, TiedHours: money.AtMost(k.TiedHours, 4), Pieces: []string{}}
	if e.Place > 0 {
		out.Place = &e.Place
	}
	if e.Known && tell {
		out.Expected, out.Low, out.High = centsOf(e.Expected), centsOf(e.Low), centsOf(e.High)
		out.Beats, out.Kept = shareText(e.Beats, true), shareText(e.Kept, true)
	}
	for _, s := range e.Within {
		out.Within = append(out.Within, soldJSON{s.Days, shareText(s.Share, s.Known)})
	}
	for _, x := range k.Judged {
		out.Pieces = append(out.Pieces, x.Record.ID)
	}
	return out
}

func daysToJSON(d kinds.Days) *daysJSON {
	if d.N == 0 {
		return nil
	}
	return &daysJSON{d.N, d.Least, d.Median, d.Most}
}

// centsOf is an estimate to the cent; null where it is not known.
func centsOf(x float64) *money.Cents {
	if c, ok := kinds.Rounded(x, 1); ok {
		return &c
	}
	return nil
}

// shareText is a share or chance to four decimals; null where it is not known.
func shareText(x float64, known bool) *string {
	if !known || math.IsNaN(x) {
		return nil
	}
	s := fmt.Sprintf("%.4f", x)
	return &s
}

func ratText(x *big.Rat) *string {
	if x == nil {
		return nil
	}
	s := money.Fixed(x, 4)
	return &s
}
