"""The reliability diagram as SVG: what was said against how often it was right, with 95 % intervals."""

from __future__ import annotations

from figures import statements

SIDE, LEFT, TOP, GAP = 260, 52, 40, 64
INK, FAINT, BAND = "#1f2933", "#d5dae0", "#2f6f8f"


def panel(x: float, title: str, rows: list[dict], said: str, right: str) -> list[str]:
    across = lambda value: f"{x + SIDE * value:.1f}"  # noqa: E731
    up = lambda value: f"{TOP + SIDE * (1 - value):.1f}"  # noqa: E731
    lines = [f'<text x="{x}" y="{TOP - 14}" font-weight="600">{title}, {len(rows)} statements</text>']
    for tick in (0.0, 0.25, 0.5, 0.75, 1.0):
        lines.append(f'<path d="M{across(tick)} {up(0)}V{up(1)}M{across(0)} {up(tick)}H{across(1)}" stroke="{FAINT}" fill="none"/>')
        lines.append(f'<text x="{across(tick)}" y="{TOP + SIDE + 18}" text-anchor="middle">{100 * tick:.0f}</text>')
        lines.append(f'<text x="{x - 8}" y="{float(up(tick)) + 4:.1f}" text-anchor="end">{100 * tick:.0f}</text>')
    lines.append(f'<path d="M{across(0)} {up(0)}L{across(1)} {up(1)}" stroke="{INK}" stroke-dasharray="4 4" fill="none"/>')
    for one in statements(rows, said, right):
        low, high = one["interval"]
        lines.append(f'<path d="M{across(one["said"])} {up(low)}V{up(high)}" stroke="{BAND}" stroke-width="1.5"/>')
        radius = 2.0 + min(one["number"], 1600) ** 0.5 / 10.0
        lines.append(f'<circle cx="{across(one["said"])}" cy="{up(one["right"])}" r="{radius:.1f}" fill="{BAND}">'
                     f'<title>{one["number"]} statements, {100 * one["said"]:.1f} % said, {100 * one["right"]:.1f} % right</title></circle>')
    lines.append(f'<text x="{x + SIDE / 2}" y="{TOP + SIDE + 38}" text-anchor="middle">said, %</text>')
    return lines


def reliability(panels: list[tuple[str, list[dict], str, str]]) -> str:
    width = LEFT + len(panels) * (SIDE + GAP)
    lines = [f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {TOP + SIDE + 52}" font-family="sans-serif" font-size="12" fill="{INK}">',
             "<title>Reliability: what was said of the first class or place, and how often it was right</title>",
             f'<rect width="{width}" height="{TOP + SIDE + 52}" fill="#ffffff"/>',
             f'<text transform="translate(14 {TOP + SIDE / 2}) rotate(-90)" text-anchor="middle">right, %</text>']
    for number, one in enumerate(panels):
        lines += panel(LEFT + number * (SIDE + GAP), *one)
    return "\n".join([*lines, "</svg>"]) + "\n"
