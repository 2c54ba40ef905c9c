package main

import (
	"encoding/json"
	"strings"
	"time"
)

// The bill of materials is as CycloneDX 1.6 has it (ECMA-424,
// https://cyclonedx.org/docs/1.6/json/). It has no serial number, which would be
// another each time.
type bom struct {
	Format     string      `json:"bomFormat"`
	Spec       string      `json:"specVersion"`
	Version    int         `json:"version"`
	Metadata   metadata    `json:"metadata"`
	Components []component `json:"components"`
	DependsOn  []depends   `json:"dependencies"`
}

type metadata struct {
	Timestamp string    `json:"timestamp"`
	Component component `json:"component"`
}

type component struct {
	Type       string      `json:"type"`
	Ref        string      `json:"bom-ref"`
	Name       string      `json:"name"`
	Version    string      `json:"version"`
	Licences   []licenceOf `json:"licenses"`
	PackageURL string      `json:"purl,omitempty"`
	Properties []property  `json:"properties,omitempty"`
}

type licenceOf struct {
	License struct {
		ID string `json:"id"`
	} `json:"license"`
}

type property struct {
	Name  string `json:"name"`
	Value string `json:"value"`
}

type depends struct {
	Ref string   `json:"ref"`
	On  []string `json:"dependsOn"`
}

// billOfMaterials is the programs' bill: they are one application, built for
// several targets from the same modules.
func billOfMaterials(version string, stamp time.Time, list []module) ([]byte, error) {
	self := component{Type: "application", Ref: "piecebook", Name: "piecebook", Version: version,
		Licences: licenceIDs([]string{"MIT"})}
	b := bom{Format: "CycloneDX", Spec: "1.6", Version: 1,
		Metadata: metadata{stamp.Format(time.RFC3339), self}, Components: []component{}}
	on := depends{Ref: self.Ref, On: []string{}}
	for _, m := range list {
		// A package URL of Go is in small letters (package-url, types: golang).
		url := "pkg:golang/" + strings.ToLower(m.path) + "@" + m.version
		c := component{Type: "library", Ref: url, Name: m.path, Version: m.version, Licences: licenceIDs(m.licences),
			PackageURL: url}
		if m.sum != "" {
			c.Properties = []property{{"go.sum", m.sum}}
		}
		b.Components = append(b.Components, c)
		on.On = append(on.On, url)
	}
	b.DependsOn = []depends{on}
	return json.MarshalIndent(b, "", "  ")
}

func licenceIDs(ids []string) []licenceOf {
	out := make([]licenceOf, len(ids))
	for i, id := range ids {
		out[i].License.ID = id
	}
	return out
}
