"""Evidence for emptying a vessel."""

from macros.calculations.blowdown import blowdown_time
from macros.calculations.evidence import ByHand, OtherRoute

EVIDENCE = [
    ByHand(
        blowdown_time,
        arithmetic=(
            "10 L from 10 to 3 bar(a) at 20 °C through 1 mm, coefficient 0.8, into the atmosphere, choked all the way and nearly ideal: the flux goes with the"
            " pressure, 6.239e-4 kg/(s m2 Pa); t = V (M/RT) ln(10/3)/(C A 6.239e-4) = 0.01 × 8.270 6e-7 × 1.203 97/(6.283 2e-7 × 6.239e-4) = 25.40 s"
        ),
        rel=1e-2,
        rows=[(dict(space_m3=0.01, first_pressure_pa=10e5, last_pressure_pa=3e5, temperature_k=293.15, effective_area_m2=6.2832e-7, back_pressure_pa=101325.0), 25.40)],
    ),
    OtherRoute(
        # The balance of an ideal gas, followed through time by a solver, to the last tenth of a bar.
        blowdown_time,
        library="scipy",
        call=(
            "(lambda V, R, T, A, pb, k: (lambda event: scipy.integrate.solve_ivp(lambda t, p: [-A * R * T / V * p[0] * (2 * k / (k - 1) / R / T *"
            " (lambda r: r ** (2 / k) - r ** ((k + 1) / k))(max(min(1, pb / p[0]), (2 / (k + 1)) ** (k / (k - 1))))) ** 0.5], (0, 1e6), [{first_pressure_pa}],"
            " events=event, rtol=1e-9, atol=1e-3).t_events[0][0])(type('E', (), dict(terminal=True, __call__=lambda self, t, p: p[0] - {last_pressure_pa}))()))"
            "({space_m3}, scipy.constants.R / 2.01588e-3, {temperature_k}, {effective_area_m2}, {back_pressure_pa}, 1.405)"
        ),
        rel=1e-2,
        rows=[
            (dict(space_m3=0.01, first_pressure_pa=6e5, last_pressure_pa=1.1e5, temperature_k=293.15, effective_area_m2=6e-7, back_pressure_pa=101325.0), 39.39569673),
            (dict(space_m3=0.002, first_pressure_pa=2e5, last_pressure_pa=1.02e5, temperature_k=313.15, effective_area_m2=1e-7, back_pressure_pa=101325.0), 22.79738839),
        ],
    ),
]  # fmt: skip
