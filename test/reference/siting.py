# Makes data/siting.json: distances, buffers and poles of inaccessibility by shapely, for siting.test.ts.
# Run with Debian 12's python3-shapely (1.8.5, GEOS 3.11) in this folder:  python3 siting.py
# Outlines are those of data/03-geometry.json (circle, ellipse, superellipse, U, star, Switzerland from Natural Earth).
import json, math, random
import shapely, shapely.geos
from shapely.geometry import LineString, Point, Polygon
from shapely.ops import polylabel, unary_union

RESOLUTION = 512          # segments in a quarter of a circle
POLE_TOLERANCE = 1e-5

shapes = {s["id"]: s["vertices"] for s in json.load(open("data/03-geometry.json"))["shapes"]}


def rounded(value, digits=9):
    return round(value, digits)


def geometry(mark):
    if "point" in mark:
        return Point(mark["point"])
    return LineString(mark["line"]) if "line" in mark else Polygon(mark["area"])


def distances(name, mark, places):
    shape = geometry(mark)
    edge = shape.exterior if "area" in mark else shape
    return dict(name=name, mark=mark, places=[
        dict(at=at, outside=rounded(shape.distance(Point(at))), edge=rounded(edge.distance(Point(at)))) for at in places])


def pole(region):
    parts = [p for p in getattr(region, "geoms", [region]) if not p.is_empty]
    best = max((polylabel(p, POLE_TOLERANCE) for p in parts), key=lambda at: region.boundary.distance(at))
    return dict(at=[rounded(best.x, 6), rounded(best.y, 6)], clearance=rounded(region.boundary.distance(best), 6))


def left_of(area, marks):
    buffers = [geometry(m).buffer(m["limit"], resolution=RESOLUTION) for m in marks]
    return Polygon(area).difference(unary_union(buffers)) if marks else Polygon(area)


def counts(kept):
    parts = [p for p in getattr(kept, "geoms", [kept]) if not p.is_empty]
    return len(parts), sum(len(p.interiors) for p in parts)


def region(name, area, marks):
    kept = left_of(area, marks)
    parts, holes = counts(kept)
    return dict(name=name, area=area, marks=marks, expected=dict(area=rounded(kept.area), parts=parts, holes=holes, pole=pole(kept)))


def line(rng, x, y, count, step):
    out, turn = [[rounded(x, 3), rounded(y, 3)]], rng.uniform(0, 2 * math.pi)
    for _ in range(count - 1):
        turn += rng.uniform(-0.5, 0.5)
        x, y = x + step * math.cos(turn), y + step * math.sin(turn)
        out.append([rounded(x, 3), rounded(y, 3)])
    return out


def scattered(seed, count, limit):
    rng = random.Random(seed)
    marks = []
    for at in range(count):
        x, y = rng.uniform(-80, 80), rng.uniform(-140, 140)
        near = rounded(rng.uniform(*limit), 2)
        if at % 3 == 0:
            marks.append(dict(point=[rounded(x, 3), rounded(y, 3)], limit=near))
        elif at % 3 == 1:
            marks.append(dict(line=line(rng, x, y, 8, 6), limit=near))
        else:
            ring = [[rounded(x + 8 * math.cos(k) * rng.uniform(.6, 1), 3), rounded(y + 8 * math.sin(k) * rng.uniform(.6, 1), 3)]
                    for k in [i * math.pi / 4 for i in range(8)]]
            marks.append(dict(area=ring, limit=near))
    return marks


def is_clear_cut(kept):
    """Nothing is thinner than 2.5 mm, where counting parts and holes is a matter of how finely a region is drawn."""
    pieces = [p for p in getattr(kept, "geoms", [kept])]
    large = all(p.buffer(-1.25).area > 0 for p in pieces) and all(
        Polygon(i).buffer(-1.25).area > 0 for p in pieces for i in p.interiors)
    return large and all(counts(kept.buffer(by)) == counts(kept) for by in (-1.25, -0.8, -0.4, 0.4, 0.8, 1.25))


def clear_cut(area, seed, count, limit):
    """Seeds 28 and 357 are the first from 1 on whose landmarks leave a clear-cut region."""
    marks = scattered(seed, count, limit)
    assert is_clear_cut(left_of(area, marks))
    return marks


def scaled(vertices, by):
    return [[rounded(x * by, 6), rounded(y * by, 6)] for x, y in vertices]


square = [[-60, -60], [60, -60], [60, 60], [-60, 60]]
muscle = [[8, -130], [46, -130], [72, -40], [76, 40], [74, 140], [8, 140], [10, 0]]
places = [[0, 0], [3, 4], [12.5, -7.25], [-30, 22], [55, 55], [14, 9], [-1.5, 10]]
swiss = shapes["switzerland"]

result = dict(
    software=dict(shapely=shapely.__version__, geos=".".join(map(str, shapely.geos.geos_version))),
    conventions="mm; outside: shapely distance, 0 inside an area; edge: distance to its boundary; region: area minus every mark's "
                "buffer of its own limit, 512 segments a quarter circle; pole: polylabel to 1e-5, greatest over parts",
    distances=[
        distances("a point", dict(point=[10, -5]), places),
        distances("a line of four points", dict(line=[[-20, -10], [0, 12], [8, 12], [40, -30]]), places),
        distances("U shape", dict(area=shapes["u_shape_slot4"]), places),
        distances("Switzerland", dict(area=swiss), places),
        distances("star", dict(area=shapes["star_noise"]), places),
    ],
    regions=[
        region("ellipse alone", scaled(shapes["ellipse_32x24"], 4), []),
        region("superellipse alone", scaled(shapes["superellipse_2_5"], 4), []),
        region("U shape alone", scaled(shapes["u_shape_slot4"], 4), []),
        region("star alone", scaled(shapes["star_noise"], 4), []),
        region("Switzerland alone", scaled(swiss, 4), []),
        region("square with a point in it", square, [dict(point=[0, 0], limit=25)]),
        region("square cut in two by a scar", square, [dict(line=[[-5, -80], [5, 80]], limit=20)]),
        region("square with an area in it", square, [dict(area=[[-10, -8], [12, -8], [0, 14]], limit=12.5)]),
        region("muscle with navel, midline scar, hip bone and crease", muscle, [
            dict(point=[0, 0], limit=50), dict(line=[[1, -25], [-1, -150]], limit=42), dict(point=[125, -78], limit=50),
            dict(line=[[-120, -112], [-40, -126], [40, -126], [120, -112]], limit=45)]),
        region("Switzerland with a point, a line and an area", scaled(swiss, 5), [
            dict(point=[20, 10], limit=14), dict(line=[[-60, -20], [-30, 0], [-20, 35]], limit=9), dict(area=scaled(shapes["u_shape_slot4"], 0.8), limit=6)]),
        region("24 landmarks in a square", scaled(square, 2), clear_cut(scaled(square, 2), 28, 24, (4, 18))),
        region("60 landmarks in a square", scaled(square, 2.5), clear_cut(scaled(square, 2.5), 357, 60, (3, 14))),
    ],
)
json.dump(result, open("data/siting.json", "w"), separators=(",", ":"))
for r in result["regions"]:
    print(r["name"], r["expected"])
