package main

import _ "embed"

// questionsPage answers what the shipped scenarios ask by what the commands
// print. It is made from testdata/questions.tmpl, which see, by the test that
// also keeps it true.
//
//go:embed questions.txt
var questionsPage string
