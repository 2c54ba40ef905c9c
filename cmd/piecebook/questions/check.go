// Package questions answers questions about the books: check, why, kinds, offer
// and area; and marks notes as seen.
package questions

import (
	"slices"

	"piecebook/cmd/piecebook/cli"
	"piecebook/cmd/piecebook/made"
	"piecebook/cmd/piecebook/terminal"
	"piecebook/ledger/closing"
)

type CheckCmd struct {
	All bool `help:"Print every problem, also where there are more than twenty of a kind."`

	Datapackage bool `help:"Write datapackage.json, which describes the records to other programs, with copies of them, but for sheets turned over or with several tables."`
}

// Run reads everything, the copies of closed months too, tells all problems and
// notes, and writes nothing.
func (k CheckCmd) Run(c *cli.Call, w terminal.Console) error {
	b, err := c.Open(0)
	if err != nil {
		return err
	}
	if k.Datapackage && !b.Problems.HasErrors() {
		return describe(c, w, b)
	}
	since, err := made.SinceMade(c, b)
	if err != nil {
		return err
	}
	if c.JSON {
		answer := cli.ProblemsJSON(b)
		answer.GivenOut, answer.Corrections = cli.GivenOutJSON(since), cli.CorrectionsJSON(b.Pending())
		if err := cli.WriteJSON(w, answer); err != nil {
			return err
		}
	} else {
		years, err := made.YearsGivenOut(c, b)
		if err != nil {
			return err
		}
		given := made.Joined(made.GivenOutLines(b, since), years)
		if len(given) > 0 {
			given = append(given, "")
		}
		terminal.PrintLines(w.Out, w.OutWide, slices.Concat(cli.ProblemLines(b, k.All), given, cli.TallyLines(b)))
	}
	if b.Problems.HasErrors() {
		return cli.Problems{List: b.Problems}
	}
	return closing.CheckCopies(b.Folder, b.Closed)
}
