// Package sample is the invented shop's books, for the pictures in the guide.
package sample

import "embed"

// Files is the books folder: settings, records and photos.
//
//go:embed settings.toml records photos
var Files embed.FS
