package costing

import (
	"encoding/json"
	"maps"
)

// Overlay is a map that is another with some entries replaced. It is never
// changed, so that each month's can hold what the month set and share the rest
// with the month before. In JSON it is a map. The zero value is empty.
type Overlay[V any] struct {
	own   map[string]V
	under *Overlay[V] // what is not in own; nil: nothing is
	depth int         // how many are under it
}

// deepest is how many maps may lie on one another before they are made one.
const deepest = 12

// Of is an entry, zero where there is none.
func (o Overlay[V]) Of(name string) V {
	for at := &o; at != nil; at = at.under {
		if v, ok := at.own[name]; ok {
			return v
		}
	}
	var none V
	return none
}

// All is every entry, as a map of its own.
func (o Overlay[V]) All() map[string]V {
	out := map[string]V{}
	if o.under != nil {
		out = o.under.All()
	}
	maps.Copy(out, o.own)
	return out
}

// With is the overlay with entries replaced, which the caller hands over.
func (o Overlay[V]) With(entries map[string]V) Overlay[V] {
	if len(entries) == 0 {
		return o
	}
	out := Overlay[V]{entries, &o, o.depth + 1}
	if out.depth > deepest {
		return Overlay[V]{own: out.All()}
	}
	return out
}

// MarshalJSON writes all entries as one map.
func (o Overlay[V]) MarshalJSON() ([]byte, error) { return json.Marshal(o.All()) }

// UnmarshalJSON reads a map.
func (o *Overlay[V]) UnmarshalJSON(data []byte) error {
	*o = Overlay[V]{}
	return json.Unmarshal(data, &o.own)
}
