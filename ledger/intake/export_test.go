package intake

import "piecebook/templates"

// SettingKeys are all keys of settings.toml.
func SettingKeys() []string {
	var keys []string
	for _, k := range settingsKeys {
		keys = append(keys, k.key)
	}
	return keys
}

// FieldFor is the column that a header alone is read as; empty for none.
func FieldFor(set *templates.Set, table, header string) string {
	r := newReader(set, DefaultSettings(set), nil)
	found, _ := r.headerFields(set.Table(table), []string{header})
	if found[0] == nil {
		return ""
	}
	return found[0].Name
}
