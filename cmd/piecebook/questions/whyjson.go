package questions

import (
	"math/big"

	"piecebook/cmd/piecebook/cli"
	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/words"
)

// postingJSON is a posting as why --json gives it.
type postingJSON struct {
	Date       calendar.Date  `json:"date"`
	Month      calendar.Month `json:"month"`
	Cents      money.Cents    `json:"amount"`
	From       ledger.Account `json:"from"`
	To         ledger.Account `json:"to"`
	Piece      string         `json:"piece,omitempty"`
	Supply     string         `json:"supply,omitempty"`
	Why        ledger.Reason  `json:"why"`
	Basis      ledger.Basis   `json:"basis,omitempty"`
	Source     []string       `json:"source"`
	Arithmetic string         `json:"arithmetic"`
	Drawn      []drawnJSON    `json:"drawn,omitempty"` // of a shared supply cost, the purchases it came from
}

type drawnJSON struct {
	Bought calendar.Date `json:"bought"`
	Taken  string        `json:"containers"`
	Of     string        `json:"of_containers"`
	Cost   money.Cents   `json:"their_cost"`
	Cents  money.Cents   `json:"amount"`
	Source string        `json:"source"`
}

// ratioJSON is a figure that is worked out of others: its parts, each as a sum,
// and the hours of the piece where they are one.
type ratioJSON struct {
	Schema string      `json:"schema"`
	Title  string      `json:"title"`
	Parts  []detailOut `json:"parts"`
	Hours  []hoursJSON `json:"hours"`
	Days   *int        `json:"days_held"`
}

type hoursJSON struct {
	Date   calendar.Date `json:"date"`
	Hours  string        `json:"hours"`
	Source string        `json:"source"`
}

// hoursOut is the hours of a period.
type hoursOut struct {
	Schema string      `json:"schema"`
	Title  string      `json:"title"`
	Total  string      `json:"total"`
	Hours  []hoursJSON `json:"hours"`
}

// printedOut is a figure of a page with what it adds up or is worked out of.
type printedOut struct {
	Schema string      `json:"schema"`
	Title  string      `json:"title"`
	Total  money.Cents `json:"total"`
	Parts  []partJSON  `json:"parts"`
}

type partJSON struct {
	Label string      `json:"label"`
	Cents money.Cents `json:"amount"`
}

func answerJSON(b *cli.Books, a answer) any {
	if a.cell != nil {
		out := printedOut{Schema: "piecebook/why-printed/1", Title: a.title, Total: money.Cents(a.cell.Cents),
			Parts: []partJSON{}}
		if w, is := a.cell.Of.(*report.Worked); is {
			for _, t := range w.Terms {
				out.Parts = append(out.Parts, partJSON{t.Label, t.Cents})
			}
		}
		return out
	}
	if a.hours != nil {
		out := hoursOut{Schema: "piecebook/why-hours/1", Title: a.title, Hours: []hoursJSON{}}
		sum := new(big.Rat)
		for _, h := range a.hours {
			out.Hours = append(out.Hours, hoursJSON{h.On, money.AtMost(h.Hours, 4), h.At.String()})
			sum.Add(sum, h.Hours)
		}
		out.Total = money.AtMost(sum, 4)
		return out
	}
	if a.ratio == nil {
		return detailJSON(a.title, a.detail)
	}
	out := ratioJSON{Schema: "piecebook/why-ratio/1", Title: a.title, Parts: []detailOut{}, Hours: []hoursJSON{}}
	for _, name := range a.ratio.Sums {
		out.Parts = append(out.Parts, detailJSON(string(name), pieceDetail(b, a.piece, name)))
	}
	for _, h := range a.ratio.Hours {
		out.Hours = append(out.Hours, hoursJSON{h.On, money.AtMost(h.Hours, 4), h.At.String()})
	}
	if a.ratio.Days {
		out.Days = a.ratio.Piece.DaysHeld
	}
	return out
}

type detailOut struct {
	Schema   string        `json:"schema"`
	Title    string        `json:"title"`
	Total    money.Cents   `json:"total"`
	Postings []postingJSON `json:"postings"`
}

func detailJSON(title string, b figures.Detail) detailOut {
	out := detailOut{Schema: "piecebook/why/1", Title: title, Total: b.Total, Postings: []postingJSON{}}
	for _, p := range b.Postings {
		j := postingJSON{Date: p.Date, Month: p.Month, Cents: p.Cents, From: p.From, To: p.To, Piece: p.Piece,
			Supply: p.Supply,
			Why:    p.Reason, Basis: p.Basis, Source: []string{}, Arithmetic: words.How(p)}
		for _, at := range p.Source {
			j.Source = append(j.Source, at.String())
		}
		if p.Of != nil {
			for _, d := range p.Of.Drawn {
				j.Drawn = append(j.Drawn, drawnJSON{d.On, money.AtMost(d.Amount, 4), money.AtMost(d.Of, 4), d.Cost, d.Cents,
					d.At.String()})
			}
		}
		out.Postings = append(out.Postings, j)
	}
	return out
}
