package cli

import (
	"piecebook/ledger/calendar"
	"piecebook/ledger/closing"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report/words"
)

// givenJSON is a month that was made, and what is otherwise since.
type givenJSON struct {
	Month   calendar.Month     `json:"month"`
	Figures []wasIsJSON        `json:"figures"` // that differ
	Pieces  int                `json:"pieces"`  // whose costs differ
	Changes []closing.Change   `json:"changes"`
	Lost    []closing.LostFile `json:"lost"`
	MadeBy  string             `json:"made_by"`
	Program string             `json:"program"`
}

type wasIsJSON struct {
	Name string      `json:"name"`
	Was  money.Cents `json:"was"`
	Is   money.Cents `json:"is"`
}

// correctedJSON is what the first open month carries for closed months.
type correctedJSON struct {
	Month     calendar.Month   `json:"month"`
	NetProfit money.Cents      `json:"net_profit"`
	Changes   []closing.Change `json:"changes"`
}

func GivenOutJSON(all []closing.Since) []givenJSON {
	var out []givenJSON
	for _, s := range all {
		if s.Nothing() {
			continue
		}
		g := givenJSON{Month: s.Month, Figures: []wasIsJSON{}, Pieces: s.Pieces, Changes: append([]closing.Change{},
			s.Changes...),
			Lost: append([]closing.LostFile{}, s.Lost...), MadeBy: s.Was, Program: s.Is}
		for _, a := range s.Amounts {
			g.Figures = append(g.Figures, wasIsJSON{words.Amount(a), a.Was, a.Is})
		}
		out = append(out, g)
	}
	return out
}

func CorrectionsJSON(c *closing.Corrections) *correctedJSON {
	if c == nil {
		return nil
	}
	return &correctedJSON{c.Month(), figures.Effect(figures.OfStatement, figures.LineNetProfit, c.Postings),
		append([]closing.Change{}, c.Changes...)}
}
