"""The rules that judge a trailer.

Takes the trailer and its figures; gives the findings, each from one small registered function in a file of
its own. The function's module docstring is the rule's page: what, why, the limit with its source and
standing, a failing and a passing example.

Sentences: a rule says nothing that is put together in code. Each sentence stands whole at the top of the
rule's file, in a constant whose name ends in ``_SAYS`` (the message), ``_HELP`` (the way out) or ``_BASIS``
(what the limit rests on), with named holes in braces; ``wording.say`` fills the holes. So each can be
translated as a whole, and ``registry.sentences`` collects them all.

Beside the rules stand ``finding`` (the shapes), ``page`` (a rule's page laid out), ``wording`` (numbers and
names in a sentence), ``guarding`` (which fuse stands before which wire), ``loading`` (what the file states of a
load) and ``mending`` (the size or the fuse that is a way out).
"""
