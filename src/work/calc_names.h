/* calc_names.h - every calculation, in the order it is listed; one a line. */
CALC_NAME(calc_summary)
CALC_NAME(calc_counts)
CALC_NAME(calc_permute)
