// Outside figures that the catalogue is held against, each with its source.
#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

namespace published {

struct Range {
    double low;
    double high;
};

struct Breed {
    std::string id;
    Range diameter_um;
    Range staple_mm;
};

// A hand spinner's certificate, table I, sheep's wool.
inline const std::vector<Breed> certificate_wools{
    {"border-leicester", {30, 40}, {125, 250}},
    {"cheviot", {27, 35}, {75, 150}},
    {"columbia", {24, 31}, {90, 130}},
    {"corriedale", {25, 35}, {75, 150}},
    {"cotswold", {31, 36}, {200, 300}},
    {"cotswold-locks", {31, 36}, {200, 300}},
    {"jacob", {26, 36}, {70, 150}},
    {"lincoln", {34, 42}, {1, 300}},  // its 175-300 mm is the fleece; tops are cut to 100-150
    {"lincoln-locks", {34, 42}, {175, 300}},
    {"merino-extrafine", {12, 23}, {65, 100}},
    {"merino-fine", {12, 23}, {65, 100}},
    {"merino-medium", {12, 23}, {65, 100}},
    {"merino-strong", {12, 23}, {65, 100}},
    {"merino-superwash", {12, 23}, {65, 100}},
    {"rambouillet", {19, 25}, {50, 100}},
    {"romney", {31, 38}, {125, 175}},
    {"tunis", {24, 30}, {100, 150}},
};

// The same certificate, table II, protein fibres. Its alpaca lengths (200-550 mm) are those of two years'
// growth and its mohair lengths ("to 30 cm") an upper end, so only diameters are held for those two.
inline const std::vector<Breed> certificate_hairs{
    {"alpaca", {18, 36}, {1, 550}}, {"alpaca-baby", {18, 36}, {1, 550}}, {"alpaca-suri", {18, 36}, {1, 550}},
    {"angora", {13, 15}, {30, 60}}, {"camel", {16, 20}, {30, 40}},       {"cashmere", {12.5, 19}, {35, 50}},
    {"mohair", {20, 44}, {1, 300}}, {"mohair-kid", {20, 44}, {1, 300}},  {"mohair-locks", {20, 44}, {1, 300}},
    {"llama", {19, 38}, {80, 250}}, {"qiviut", {17, 22}, {40, 70}},      {"yak", {15, 20}, {35, 50}},
};

// Held, Weaving: a Handbook of the Fiber Arts, appendix on breeds: inches of staple and the grade. The
// micrometres of the grades are from memory of the United States grades for wool (40s 38.1 down to 60s 23.5).
inline const std::vector<Breed> held_breeds{
    {"columbia", {23.5, 27.9}, {88.9, 127.0}},     // 3 1/2-5 in, 56-60s
    {"hampshire", {24.9, 31.0}, {69.0, 71.0}},     // 2 3/4 in, 50-58s
    {"dorset-horn", {26.4, 31.0}, {88.9, 139.7}},  // 3 1/2-5 1/2 in, 50-56s
    {"karakul", {32.7, 38.1}, {203.2, 254.0}},     // 8-10 in, 40-46s
    {"herdwick", {36.2, 60.0}, {149.9, 203.2}},    // 6-8 in (15-20 cm), 28-40s
};

// Fournier and Fournier, In Sheep's Clothing: softest usual diameter, um.
inline const std::map<std::string, double> softest_um{
    {"merino-fine", 18},
    {"merino-medium", 18},
    {"merino-strong", 18},
    {"merino-extrafine", 18},
    {"rambouillet", 19},
    {"california-variegated", 21},
    {"cormo", 21},
    {"polwarth", 21},
    {"romeldale", 21},
    {"targhee", 22},
    {"polypay", 22},
    {"bond", 23},
    {"shetland", 23},
    {"southdown", 23},
    {"bluefaced-leicester", 24},
    {"columbia", 24},
    {"clun-forest", 25},
    {"tunis", 25},
    {"montadale", 25},
    {"corriedale", 26},
    {"ryeland", 26},
    {"shropshire", 26},
    {"suffolk", 26},
    {"texel", 26},
    {"black-welsh-mountain", 26},
    {"cheviot", 28},
    {"gotland", 28},
    {"perendale", 28},
    {"wensleydale", 30},
    {"teeswater", 30},
    {"romney", 33},
    {"cotswold", 34},
    {"coopworth", 35},
    {"lincoln", 36},
    {"border-leicester", 37},
};

// Regulation (EU) No 1007/2011, Annex IX, percent of dry mass, by the name on the label. Wool and animal hair
// have two: combed and carded.
inline const std::map<std::string, std::vector<double>> annex_9_pct{
    {"wool", {18.25, 17.0}},
    {"alpaca", {18.25, 17.0}},
    {"llama", {18.25, 17.0}},
    {"camel", {18.25, 17.0}},
    {"cashmere", {18.25, 17.0}},
    {"mohair", {18.25, 17.0}},
    {"angora", {18.25, 17.0}},
    {"yak", {18.25, 17.0}},
    {"guanaco", {18.25, 17.0}},
    {"cashgora", {18.25, 17.0}},
    {"animal hair", {18.25, 17.0}},
    {"silk", {11.0}},
    {"cotton", {8.5, 10.5}},
    {"flax", {12.0}},
    {"true hemp", {12.0}},
    {"jute", {17.0}},
    {"ramie", {8.5}},
    {"cupro", {13.0}},
    {"modal", {13.0}},
    {"protein", {17.0}},
    {"viscose", {13.0}},
    {"acrylic", {2.0}},
    {"polyamide", {6.25}},
    {"lyocell", {13.0}},
    {"polylactide", {1.5}},
    {"polyester", {1.5}},
    {"metallised fibre", {2.0}},
};

// Morton and Hearle, Physical Properties of Textile Fibres, g/cm3, by the name on the label.
inline const std::map<std::string, Range> density_g_cm3{
    {"wool", {1.31, 1.31}},      {"silk", {1.34, 1.34}},    {"cotton", {1.52, 1.52}},
    {"flax", {1.52, 1.52}},      {"viscose", {1.52, 1.52}}, {"polyamide", {1.14, 1.14}},
    {"polyester", {1.39, 1.39}},
};

// 16 CFR 300 and 303: names of the Wool Products Labeling Act, of natural fibers, and of 303.7.
inline const std::set<std::string> us_names{
    "wool",        "alpaca",   "llama",        "mohair",       "cashmere",     "camel hair",
    "silk",        "cotton",   "linen",        "hemp",         "jute",         "ramie",
    "rayon",       "lyocell",  "azlon",        "nylon",        "polyester",    "acrylic",
    "PLA",         "metallic", "yak hair",     "bison hair",   "musk ox hair", "angora rabbit hair",
    "possum hair", "dog hair", "guanaco hair", "unknown fiber"};

}  // namespace published
