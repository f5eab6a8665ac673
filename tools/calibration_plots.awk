# calibration_plots.awk - rank histograms and coverage of the hierarchical model
# as SVG, from the lines scheme,parameter,rank,count that slow_hierarchy_sbc
# writes.  Variables: ranks and coverage, the files to write.
BEGIN { FS = "," }
{
	if (!($1 in scheme_at)) { scheme_at[$1] = n_scheme; scheme[n_scheme++] = $1 }
	if (!($2 in name_at)) { name_at[$2] = n_name; name[n_name++] = $2 }
	count[$1, $2, $3] += $4
	if ($1 == scheme[0] && $2 == name[0])
		n_trial += $4
}
function start(file, width, height, title, words) {
	printf("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 %d %d\" " \
		"font-family=\"sans-serif\" font-size=\"11\">\n<title>%s</title>\n" \
		"<desc>%s</desc>\n<rect width=\"%d\" height=\"%d\" fill=\"white\"/>\n",
		width, height, title, words, width, height) > file
}
function text(file, x, y, words, more) {
	printf("<text x=\"%.1f\" y=\"%.1f\"%s>%s</text>\n", x, y, more, words) > file
}
function histogram(file, s, k, left, top, wide, high,    b, r, bar, most, sum, band) {
	most = 2 * n_trial / 20
	band = 2.576 * sqrt(n_trial * 0.05 * 0.95)
	printf("<rect x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" height=\"%.1f\" fill=\"#dde6ee\"/>\n",
		left, top + high - (n_trial / 20 + band) / most * high, wide,
		2 * band / most * high) > file
	for (b = 0; b < 20; b++) {
		sum = 0
		for (r = 5 * b; r < 5 * b + 5; r++)
			sum += count[scheme[s], name[k], r]
		bar = sum / most * high
		printf("<rect x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" height=\"%.1f\" fill=\"#4a6d8c\" fill-opacity=\"0.75\"/>\n",
			left + b * wide / 20, top + high - bar, wide / 20 - 0.8, bar) > file
	}
	printf("<line x1=\"%.1f\" y1=\"%.1f\" x2=\"%.1f\" y2=\"%.1f\" stroke=\"black\"/>\n",
		left, top + high, left + wide, top + high) > file
	text(file, left, top - 3, name[k])
}
# Share of trials whose truth lies in the central 2 * half of the 100 ranks.
function share(s, k, half,    r, sum) {
	sum = 0
	for (r = 50 - half; r < 50 + half; r++)
		sum += count[scheme[s], name[k], r]
	return sum / n_trial
}
function draw_coverage(s, left, top, size,    k, h, points, L, e) {
	points = ""
	for (h = 0; h <= 50; h++) {
		L = h / 50
		e = 2.576 * sqrt(L * (1 - L) / n_trial)
		points = points sprintf(" %.1f,%.1f", left + L * size, top + size - (L + e) * size)
	}
	for (h = 50; h >= 0; h--) {
		L = h / 50
		e = 2.576 * sqrt(L * (1 - L) / n_trial)
		points = points sprintf(" %.1f,%.1f", left + L * size, top + size - (L - e) * size)
	}
	printf("<polygon points=\"%s\" fill=\"#dde6ee\"/>\n", points) > coverage
	printf("<rect x=\"%d\" y=\"%d\" width=\"%d\" height=\"%d\" fill=\"none\" stroke=\"black\"/>\n",
		left, top, size, size) > coverage
	for (k = 0; k < n_name; k++) {
		points = ""
		for (h = 0; h <= 50; h++)
			points = points sprintf(" %.1f,%.1f", left + h / 50 * size,
				top + size - share(s, k, h) * size)
		printf("<polyline points=\"%s\" fill=\"none\" stroke=\"#4a6d8c\" stroke-opacity=\"0.6\"><title>%s</title></polyline>\n",
			points, name[k]) > coverage
	}
	for (h = 0; h <= 4; h++) {
		text(coverage, left + h / 4 * size, top + size + 14, h * 25 " %", " text-anchor=\"middle\"")
		text(coverage, left - 4, top + size - h / 4 * size + 4, h * 25 " %", " text-anchor=\"end\"")
	}
	text(coverage, left, top - 6, scheme[s])
	text(coverage, left + size / 2, top + size + 30, "share the interval is to hold", " text-anchor=\"middle\"")
}
END {
	words = sprintf("%d simulated trials a panel; the pale band holds 99 in 100 of what chance alone does.", n_trial)
	rows = int((n_name + 4) / 5)
	start(ranks, 640, 30 + n_scheme * (28 + rows * 84),
		"Ranks of the truth among 99 draws of the posterior", words)
	for (s = 0; s < n_scheme; s++) {
		y = 30 + s * (28 + rows * 84)
		text(ranks, 10, y, scheme[s] ": ranks of the truth among 99 draws, " n_trial " trials", " font-weight=\"bold\"")
		for (k = 0; k < n_name; k++)
			histogram(ranks, s, k, 10 + (k % 5) * 126, y + 24 + int(k / 5) * 84, 116, 56)
	}
	printf("</svg>\n") > ranks
	start(coverage, 680, 390, "What central intervals hold of the truths", words)
	text(coverage, 40, 18, "share of truths inside, a line a parameter, " n_trial " trials", " font-weight=\"bold\"")
	for (s = 0; s < n_scheme; s++)
		draw_coverage(s, 44 + s * 330, 42, 290)
	printf("</svg>\n") > coverage
	for (s = 0; s < n_scheme; s++)
		for (k = 0; k < n_name; k++)
			printf("%s, %s: central 50 %% holds %.1f %%, 90 %% holds %.1f %%\n",
				scheme[s], name[k], 100 * share(s, k, 25), 100 * share(s, k, 45))
}
