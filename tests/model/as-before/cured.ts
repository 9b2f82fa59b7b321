/** Days that a cure has changed, by its name; each has a test of its own. */
const cures = {
	/** Faces scuffed or sanded as their window asks go into one stretch (`tests/day/one-rulebook.test.ts`). */
	stretch: [
		22, 34, 70, 74, 75, 174, 178, 182, 202, 210, 212, 218, 222, 230, 238, 246, 275, 286, 290, 298, 306, 310,
		322, 334, 362, 370, 390, 410, 418, 426, 430, 434, 446, 458, 486, 522, 530, 534, 558, 562, 594, 602, 608,
		614, 630, 634, 670, 690, 722, 726, 730, 746, 750, 786, 798, 812, 814, 818, 822, 830, 838, 862, 874, 886,
		898, 906, 922, 935, 954, 968, 974, 978, 990, 991, 1014, 1022, 1042, 1066, 1075, 1076, 1082, 1086, 1102,
		1106, 1114, 1118, 1158, 1166, 1170, 1226, 1250, 1258, 1294, 1302, 1326, 1331, 1354, 1362, 1366, 1374,
		1406, 1410, 1446, 1450, 1454, 1474, 1478, 1490, 1502, 1518, 1539, 1578, 1582, 1590, 1606, 1610, 1616,
		1630, 1698, 1726, 1730, 1734, 1750, 1754, 1758, 1762, 1779, 1786, 1818, 1834, 1838, 1842, 1854, 1882,
		1922, 1926, 1934, 1940, 1966,
	],
	/** How far a clock was set back, and since when a killed program is away, go by the last record: a window that moved is a later and truer one. */
	clock: [
		25, 30, 208, 282, 285, 587, 745, 841, 929, 970, 1073, 1090, 1157, 1196, 1232, 1238, 1297, 1526, 1530,
		1550, 1652, 1702, 1830, 1857, 1980,
	],
	/** A reason holds for its wait, ends with it, and does not count as given later where the clock was set back (`tests/model/window.test.ts`). */
	reason: [
		100, 105, 122, 142, 193, 215, 244, 276, 318, 335, 382, 385, 421, 433, 577, 586, 606, 656, 700, 705, 717,
		790, 799, 897, 904, 944, 955, 985, 1002, 1026, 1063, 1088, 1111, 1173, 1178, 1211, 1217, 1263, 1270, 1279,
		1281, 1299, 1338, 1385, 1425, 1437, 1449, 1461, 1508, 1588, 1601, 1609, 1627, 1665, 1681, 1719, 1749,
		1765, 1767, 1778, 1788, 1806, 1825, 1876, 1944, 1952, 1982,
	],
	/** A day with nothing left to spray does not begin with the list before spraying (`tests/day/one-rulebook.test.ts`). */
	list: [423, 801, 1306],
} as const;

export const cured: ReadonlySet<number> = new Set<number>(Object.values(cures).flat());
