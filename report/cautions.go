package report

import (
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/templates"
)

// SupplyCalls says that a supply calls for a caution. A caution of the
// supply's own stands in place of its group's, but not of what depends on the
// piece's age.
func SupplyCalls(c templates.Caution, s *ledger.Supply) bool {
	group := s.Group
	if s.Caution != "" && c.When.MadeBefore == 0 {
		if strings.EqualFold(c.Name, s.Caution) {
			return true
		}
		group = ""
	}
	return c.When.Supply(s.Name, group, s.Unit)
}

// Shipped says that words name one of the shipped cautions.
func (in *Input) Shipped(name string) bool {
	return slices.ContainsFunc(in.Cautions.List, func(c templates.Caution) bool { return strings.EqualFold(c.Name, name) })
}
