package intake

import "piecebook/templates"

// FieldFor is the column that a header alone is read as; empty for none.
func FieldFor(set *templates.Set, table, header string) string {
	r := &reading{set: set, settings: DefaultSettings(set)}
	found, _ := r.headerFields(set.Table(table), []string{header})
	if found[0] == nil {
		return ""
	}
	return found[0].Name
}
