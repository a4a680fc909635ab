package main

import "warmby/cmd/warmby/internal/document"

// seconds is a moment or a length of time as all JSON has it.
type seconds = document.Seconds
