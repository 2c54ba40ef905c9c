package intake

// SettingKeys are all keys of settings.toml.
func SettingKeys() []string {
	var keys []string
	for _, k := range settingsKeys {
		keys = append(keys, k.key)
	}
	return keys
}
