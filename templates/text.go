package templates

import _ "embed"

// Chart is the text template of what stands around the rows of a chart: it
// defines "head" and "foot".
//
//go:embed chart.tmpl
var Chart string

// Worksheet is the text template of a worksheet: it defines "student" and
// "key".
//
//go:embed worksheet.tmpl
var Worksheet string
