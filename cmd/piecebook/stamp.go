package main

import (
	"fmt"
	"strconv"
	"time"
)

// stamp is the time SOURCE_DATE_EPOCH gives, whole seconds since 1970 began
// in UTC (reproducible-builds.org, the SOURCE_DATE_EPOCH specification);
// zero where it is not set: reports are then dated by their period's end.
func (w console) stamp() (time.Time, error) {
	text := ""
	if w.env != nil {
		text = w.env("SOURCE_DATE_EPOCH")
	}
	if text == "" {
		return time.Time{}, nil
	}
	seconds, err := strconv.ParseInt(text, 10, 64)
	// PDF dates have four digits for the year.
	if err != nil || seconds < 0 || seconds > 253402300799 {
		return time.Time{}, usage(fmt.Sprintf("SOURCE_DATE_EPOCH is %q, and that is no number of seconds since 1970. Unset "+
			"it, or set it to one, as in 1767225600.", text))
	}
	return time.Unix(seconds, 0).UTC(), nil
}
