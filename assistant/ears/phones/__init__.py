"""A second opinion: the sounds of a sentence, held one after the other against what was heard.

The first model writes whole sentences and likes them well formed; it will finish a word that
was broken off. This one knows no words: a hidden Markov model of phones. It is asked how well
each sentence that may be meant fits, sound by sound, and where it does not.
"""
