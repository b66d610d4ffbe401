"""Laws whose every draw is a sweep of whole designs: a quarter of the profile's draws, and a draw
that fails is shown as it is, for to shrink it would take minutes."""

from hypothesis import Phase, settings

few_draws = settings(
    max_examples=settings.default.max_examples // 4, phases=[Phase.explicit, Phase.generate]
)
