package intake

import (
	"io/fs"

	"piecebook/ledger/intake/settings"
	"piecebook/templates"
)

// ReadRejecting is Read without trying proposals: the lines are rejected, and no
// others.
func ReadRejecting(fsys fs.FS, t *templates.Set, lines ...settings.Proposal) *Result {
	return read(fsys, t, nil, trial{rejected: lines})
}

// LinesNamed are the lines for settings.toml that are proposed or that a problem
// names.
func (r *Result) LinesNamed() []settings.Proposal {
	return append(append([]settings.Proposal{}, r.Proposals...), r.reported...)
}
