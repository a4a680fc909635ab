package plots

import "testing"

// crowd is the winter course with as many people as asked.
func crowd(people int) story {
	st := winterCourse()
	names := st.people
	for len(st.people) < people {
		k := len(st.people)
		name := names[k%len(names)] + " " + string(rune('A'+k/len(names)))
		for i := range st.jobs {
			for _, who := range st.jobs[i].crew {
				if who == names[k%len(names)] {
					st.jobs[i].crew = append(st.jobs[i].crew, name)
					break
				}
			}
		}
		st.people = append(st.people, name)
	}
	return st
}

func BenchmarkDrill(b *testing.B) {
	tl := crowd(12).timeline()
	opt := Options{Curves: winterCurves(tl), Cold: winterCold()}
	b.Run("layout", func(b *testing.B) {
		for b.Loop() {
			Drill(tl, opt)
		}
	})
	for _, f := range Formats {
		b.Run(f, func(b *testing.B) {
			for b.Loop() {
				if _, err := Drill(tl, opt).Bytes(f); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
