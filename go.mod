module warmby

go 1.26
