#!/bin/sh
# compare.sh BUILD - compare on the demo (wall and processor time), and how it
# grows with the pieces: four sizes, seconds a thousand pieces should not grow.
set -eu
program=$1/foamwright
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
"$program" new "$folder/demo.book" >/dev/null
"$program" import "$folder/demo.book" demo >/dev/null
for how in "" "--measure bending_strength" "--all" "--json"; do
	for i in 1 2 3; do
		# shellcheck disable=SC2086 # no words where how is empty
		/usr/bin/time -f "%e %U" "$program" compare \
			"$folder/demo.book" $how 2>&1 >/dev/null
	done | sort -n | sed -n 2p | sed "s/\(.*\) \(.*\)/demo, compare $how: \1 s wall, \2 s of processor/"
done
grow() {
	mkdir "$folder/$1"
	(cd "$folder/$1" && awk -v n="$1" 'BEGIN {
		srand(3)
		print "code,name\nB,Base\nD,Dense\nF,Ash" > "mixes.csv"
		print "code,baseline\nT,B" > "trial.csv"
		print "code,trial,mix,practice" > "batches.csv"
		print "code,batch,form,width [mm],depth [mm],fate" > "specimens.csv"
		print "specimen,code,kind,age,loading,span [mm],on_rig_included,held [kg],broke [kg]" > "readings.csv"
		for (i = 0; i < n / 4; i++) {
			m = substr("BDF", i % 3 + 1, 1)
			print "b" i ",T," m ",no" > "batches.csv"
			for (k = 0; k < 4; k++) {
				held = 2 * int(8 + 6 * rand())
				print "b" i "-" k ",b" i ",beam,100,75,tested" > "specimens.csv"
				print "b" i "-" k ",1,bending,28 d,centre,600,yes," held "," held + 2 > "readings.csv"
			}
		}
	}')
	"$program" new "$folder/$1.book" >/dev/null
	"$program" import "$folder/$1.book" "$folder/$1" >/dev/null
	/usr/bin/time -f "$1 %U" "$program" compare "$folder/$1.book" \
		2>&1 >/dev/null | awk '{ printf \
		"%d pieces: %.2f s of processor, %.2f s a thousand\n", \
		$1, $2, 1000 * $2 / $1 }'
}
for n in 500 1000 2000 4000; do
	grow "$n"
done
