# Reference pipeline with OpenCV: markers -> homography -> 10 px/mm patch -> Lab a* seed -> GrabCut -> largest contour.
# Written for this project as the peer that the photograph measurement is compared with; it is not part of the program.
# usage: python3 photo.py CARD.json PICTURE...    one line of JSON a picture (needs python3-opencv)
import cv2, json, sys, time, numpy as np

card = json.load(open(sys.argv[1]))
corner = {
    m["id"]: [m["corners"][k] for k in ("topLeft", "topRight", "bottomRight", "bottomLeft")]
    for m in card["markers"]["list"]
}
dictionary = cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_4X4_50)
parameters = cv2.aruco.DetectorParameters_create()
parameters.cornerRefinementMethod = cv2.aruco.CORNER_REFINE_SUBPIX
PX = 10


def measure(path):
    start = time.perf_counter()
    image = cv2.imread(path)
    found, ids, _ = cv2.aruco.detectMarkers(cv2.cvtColor(image, cv2.COLOR_BGR2GRAY), dictionary, parameters=parameters)
    markers = [] if ids is None else [(c[0], int(i)) for c, i in zip(found, ids[:, 0]) if int(i) in corner]
    outline = outline_from(image, markers) if len(markers) >= 4 else None
    return dict(file=path, markers=len(markers), outline=outline, ms=(time.perf_counter() - start) * 1e3)


def outline_from(image, markers):
    src = np.concatenate([c for c, _ in markers])
    dst = np.array([p for _, i in markers for p in corner[i]], float)
    plane, _ = cv2.findHomography(src, dst)
    above = np.array([[PX, 0, 45 * PX], [0, -PX, 45 * PX], [0, 0, 1.0]])
    patch = cv2.warpPerspective(image, above @ plane, (90 * PX, 90 * PX))
    a = cv2.cvtColor(patch, cv2.COLOR_BGR2LAB).astype(int)[..., 1]
    yy, xx = np.mgrid[0:900, 0:900]
    inside = np.hypot(xx - 450, yy - 450) / PX < 38
    level, _ = cv2.threshold(a[inside].astype(np.uint8).reshape(-1, 1), 0, 255, cv2.THRESH_BINARY + cv2.THRESH_OTSU)
    mask = np.full(a.shape, cv2.GC_BGD, np.uint8)
    mask[inside] = cv2.GC_PR_BGD
    mask[inside & (a > level)] = cv2.GC_PR_FGD
    mask[cv2.erode((mask == cv2.GC_PR_FGD).astype(np.uint8), np.ones((25, 25))) > 0] = cv2.GC_FGD
    try:
        cv2.grabCut(patch, mask, None, np.zeros((1, 65)), np.zeros((1, 65)), 4, cv2.GC_INIT_WITH_MASK)
    except cv2.error:
        return None
    stoma = np.isin(mask, (cv2.GC_FGD, cv2.GC_PR_FGD)).astype(np.uint8)
    contours, _ = cv2.findContours(stoma, cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_NONE)
    if not contours:
        return None
    return [((x - 450) / PX, (450 - y) / PX) for x, y in max(contours, key=cv2.contourArea)[:, 0].tolist()]


for path in sys.argv[2:]:
    print(json.dumps(measure(path)), flush=True)
