/* label.c - identifiers with a check character. */
#include "lab/label.h"

#include <string.h>

static const char alphabet[] = "3467ACDEFHJKMNPRTXY";

_Static_assert(sizeof alphabet == LAB_LABEL_BASE + 1, "one character each");

/* Numbers of one length are scattered by a factor without a common divisor with
 * 19: each label is met once. */
enum { SHORT = 3, LONG = 4, FACTOR = 2741, OFFSET = 1103 };

_Static_assert(FACTOR % LAB_LABEL_BASE != 0, "every label is reached");

static int
place_of(char c)
{
	const char *at;

	if (c >= 'a' && c <= 'z')
		c = (char)(c - 'a' + 'A');
	at = c == '\0' ? NULL : strchr(alphabet, c);
	return at == NULL ? -1 : (int)(at - alphabet);
}

/* The check has weight 1, the characters before it 2, 3, ... from the left. */
static int
check_of(const char *text, int n)
{
	int sum = 0;

	for (int i = 0; i < n; i++)
		sum += (i + 2) * place_of(text[i]);
	return (LAB_LABEL_BASE - sum % LAB_LABEL_BASE) % LAB_LABEL_BASE;
}

void
lab_label_write(size_t serial, char out[LAB_LABEL_MAX])
{
	size_t room = LAB_LABELS_SHORT, number;
	int n = SHORT;

	serial %= LAB_LABELS;
	if (serial >= LAB_LABELS_SHORT) {
		serial -= LAB_LABELS_SHORT;
		room = (size_t)LAB_LABELS_SHORT * LAB_LABEL_BASE;
		n = LONG;
	}
	number = (serial * FACTOR + OFFSET) % room;
	for (int i = n; i > 0; i--) {
		out[i - 1] = alphabet[number % LAB_LABEL_BASE];
		number /= LAB_LABEL_BASE;
	}
	out[n] = alphabet[check_of(out, n)];
	out[n + 1] = '\0';
}

enum lab_label
lab_label_check(const char *text)
{
	size_t n = strlen(text);

	if (n != SHORT + 1 && n != LONG + 1)
		return LAB_LABEL_FOREIGN;
	for (size_t i = 0; i < n; i++)
		if (place_of(text[i]) < 0)
			return LAB_LABEL_FOREIGN;
	return place_of(text[n - 1]) == check_of(text, (int)n - 1)
		? LAB_LABEL_GOOD
		: LAB_LABEL_MISTYPED;
}
