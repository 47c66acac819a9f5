#include "export/lettering/composition.hpp"

#include <algorithm>

namespace shankline {
namespace {

struct Mark {
  char16_t mark;
  std::u16string_view pairs; ///< letter, letter with the mark; letter, ...
};

// Canonical compositions of Unicode 14 up to U+30FF, without the Indic scripts, which need shaping
// in any case. A letter that has a mark already stands here as a letter.
constexpr Mark marks[] = {
    {0x0300, u"AÀEÈIÌNǸOÒUÙWẀYỲaàeèiìnǹoòuùwẁyỳ¨῭ÂẦÊỀÔỒÜǛâầ"
             u"êềôồüǜĂẰăằĒḔēḕŌṐōṑƠỜơờƯỪưừΑᾺΕῈΗῊΙῚΟῸΥῪΩῺαὰεὲ"
             u"ηὴιὶοὸυὺωὼϊῒϋῢЕЀИЍеѐиѝἀἂἁἃἈἊἉἋἐἒἑἓἘἚἙἛἠἢἡἣἨἪ"
             u"ἩἫἰἲἱἳἸἺἹἻὀὂὁὃὈὊὉὋὐὒὑὓὙὛὠὢὡὣὨὪὩὫ᾿῍῾῝"},
    {0x0301, u"AÁCĆEÉGǴIÍKḰLĹMḾNŃOÓPṔRŔSŚUÚWẂYÝZŹaácćeégǵií"
             u"kḱlĺmḿnńoópṕrŕsśuúwẃyýzź¨΅ÂẤÅǺÆǼÇḈÊẾÏḮÔỐÕṌØǾ"
             u"ÜǗâấåǻæǽçḉêếïḯôốõṍøǿüǘĂẮăắĒḖēḗŌṒōṓŨṸũṹƠỚơớƯỨ"
             u"ưứΑΆΕΈΗΉΙΊΟΌΥΎΩΏαάεέηήιίοόυύωώϊΐϋΰϒϓГЃКЌгѓкќ"
             u"ἀἄἁἅἈἌἉἍἐἔἑἕἘἜἙἝἠἤἡἥἨἬἩἭἰἴἱἵἸἼἹἽὀὄὁὅὈὌὉὍὐὔὑὕ"
             u"ὙὝὠὤὡὥὨὬὩὭ᾿῎῾῞"},
    {0x0302, u"AÂCĈEÊGĜHĤIÎJĴOÔSŜUÛWŴYŶZẐaâcĉeêgĝhĥiîjĵoôsŝ"
             u"uûwŵyŷzẑẠẬạậẸỆẹệỌỘọộ"},
    {0x0303, u"AÃEẼIĨNÑOÕUŨVṼYỸaãeẽiĩnñoõuũvṽyỹÂẪÊỄÔỖâẫêễôỗ"
             u"ĂẴăẵƠỠơỡƯỮưữ"},
    {0x0304, u"AĀEĒGḠIĪOŌUŪYȲaāeēgḡiīoōuūyȳÄǞÆǢÕȬÖȪÜǕäǟæǣõȭ"
             u"öȫüǖǪǬǫǭȦǠȧǡȮȰȯȱΑᾹΙῙΥῩαᾱιῑυῡИӢУӮиӣуӯḶḸḷḹṚṜṛṝ"},
    {0x0306, u"AĂEĔGĞIĬOŎUŬaăeĕgğiĭoŏuŭȨḜȩḝΑᾸΙῘΥῨαᾰιῐυῠАӐЕӖ"
             u"ЖӁИЙУЎаӑеӗжӂийуўẠẶạặ"},
    {0x0307, u"AȦBḂCĊDḊEĖFḞGĠHḢIİMṀNṄOȮPṖRṘSṠTṪWẆXẊYẎZŻaȧbḃ"
             u"cċdḋeėfḟgġhḣmṁnṅoȯpṗrṙsṡtṫwẇxẋyẏzżŚṤśṥŠṦšṧſẛ"
             u"ṢṨṣṩ"},
    {0x0308, u"AÄEËHḦIÏOÖUÜWẄXẌYŸaäeëhḧiïoötẗuüwẅxẍyÿÕṎõṏŪṺ"
             u"ūṻΙΪΥΫιϊυϋϒϔІЇАӒЕЁЖӜЗӞИӤОӦУӰЧӴЫӸЭӬаӓеёжӝзӟиӥ"
             u"оӧуӱчӵыӹэӭіїӘӚәӛӨӪөӫ"},
    {0x0309, u"AẢEẺIỈOỎUỦYỶaảeẻiỉoỏuủyỷÂẨÊỂÔỔâẩêểôổĂẲăẳƠỞơở"
             u"ƯỬưử"},
    {0x030a, u"AÅUŮaåuůwẘyẙ"},
    {0x030b, u"OŐUŰoőuűУӲуӳ"},
    {0x030c, u"AǍCČDĎEĚGǦHȞIǏKǨLĽNŇOǑRŘSŠTŤUǓZŽaǎcčdďeěgǧhȟ"
             u"iǐjǰkǩlľnňoǒrřsštťuǔzžÜǙüǚƷǮʒǯ"},
    {0x030f, u"AȀEȄIȈOȌRȐUȔaȁeȅiȉoȍrȑuȕѴѶѵѷ"},
    {0x0311, u"AȂEȆIȊOȎRȒUȖaȃeȇiȋoȏrȓuȗ"},
    {0x0313, u"ΑἈΕἘΗἨΙἸΟὈΩὨαἀεἐηἠιἰοὀρῤυὐωὠ"},
    {0x0314, u"ΑἉΕἙΗἩΙἹΟὉΡῬΥὙΩὩαἁεἑηἡιἱοὁρῥυὑωὡ"},
    {0x031b, u"OƠUƯoơuư"},
    {0x0323, u"AẠBḄDḌEẸHḤIỊKḲLḶMṂNṆOỌRṚSṢTṬUỤVṾWẈYỴZẒaạbḅdḍ"
             u"eẹhḥiịkḳlḷmṃnṇoọrṛsṣtṭuụvṿwẉyỵzẓƠỢơợƯỰưự"},
    {0x0324, u"UṲuṳ"},
    {0x0325, u"AḀaḁ"},
    {0x0326, u"SȘTȚsștț"},
    {0x0327, u"CÇDḐEȨGĢHḨKĶLĻNŅRŖSŞTŢcçdḑeȩgģhḩkķlļnņrŗsştţ"},
    {0x0328, u"AĄEĘIĮOǪUŲaąeęiįoǫuų"},
    {0x032d, u"DḒEḘLḼNṊTṰUṶdḓeḙlḽnṋtṱuṷ"},
    {0x032e, u"HḪhḫ"},
    {0x0330, u"EḚIḬUṴeḛiḭuṵ"},
    {0x0331, u"BḆDḎKḴLḺNṈRṞTṮZẔbḇdḏhẖkḵlḻnṉrṟtṯzẕ"},
    {0x0342, u"¨῁αᾶηῆιῖυῦωῶϊῗϋῧἀἆἁἇἈἎἉἏἠἦἡἧἨἮἩἯἰἶἱἷἸἾἹἿὐὖὑὗ"
             u"ὙὟὠὦὡὧὨὮὩὯ᾿῏῾῟"},
    {0x0345, u"ΑᾼΗῌΩῼάᾴήῄαᾳηῃωῳώῴἀᾀἁᾁἂᾂἃᾃἄᾄἅᾅἆᾆἇᾇἈᾈἉᾉἊᾊἋᾋἌᾌ"
             u"ἍᾍἎᾎἏᾏἠᾐἡᾑἢᾒἣᾓἤᾔἥᾕἦᾖἧᾗἨᾘἩᾙἪᾚἫᾛἬᾜἭᾝἮᾞἯᾟὠᾠὡᾡὢᾢ"
             u"ὣᾣὤᾤὥᾥὦᾦὧᾧὨᾨὩᾩὪᾪὫᾫὬᾬὭᾭὮᾮὯᾯὰᾲὴῂὼῲᾶᾷῆῇῶῷ"},
    {0x3099,
     u"うゔかがきぎくぐけげこごさざしじすずせぜそぞただちぢつづてでとどはばひびふぶへべほぼゝゞ"
     u"ウヴカガキギクグケゲコゴサザシジスズセゼソゾタダチヂツヅテデトドハバヒビフブヘベホボワヷ"
     u"ヰヸヱヹヲヺヽヾ"},
    {0x309a, u"はぱひぴふぷへぺほぽハパヒピフプヘペホポ"},
};

constexpr char32_t combining_first = 0x0300;

// The Unicode Standard, section 3.12: syllables are numbered by leading consonant, vowel, trail.
constexpr char32_t lead_first = 0x1100;
constexpr char32_t vowel_first = 0x1161;
constexpr char32_t trail_before_first = 0x11a7;
constexpr char32_t syllable_first = 0xac00;
constexpr char32_t leads = 19;
constexpr char32_t vowels = 21;
constexpr char32_t trails = 28;

bool within(char32_t c, char32_t first, char32_t count) {
  return c >= first && c - first < count;
}

/// 0 when there is none.
char32_t syllable(char32_t first, char32_t second) {
  if (within(first, lead_first, leads) && within(second, vowel_first, vowels))
    return syllable_first + ((first - lead_first) * vowels + (second - vowel_first)) * trails;
  const bool open = within(first, syllable_first, leads * vowels * trails) &&
                    (first - syllable_first) % trails == 0;
  if (open && within(second, trail_before_first + 1, trails - 1))
    return first + (second - trail_before_first);
  return 0;
}

char32_t together(char32_t letter, char32_t mark) {
  if (mark < combining_first) return 0; // nearly every character
  if (const char32_t found = syllable(letter, mark)) return found;
  const auto row = std::find_if(std::begin(marks), std::end(marks),
                                [mark](const Mark& known) { return known.mark == mark; });
  if (row == std::end(marks)) return 0;
  for (std::size_t i = 0; i < row->pairs.size(); i += 2)
    if (row->pairs[i] == letter) return row->pairs[i + 1];
  return 0;
}

} // namespace

std::u32string composed(std::u32string_view characters) {
  std::u32string result;
  result.reserve(characters.size());
  for (const char32_t character : characters) {
    const char32_t both = result.empty() ? 0 : together(result.back(), character);
    if (both)
      result.back() = both;
    else
      result += character;
  }
  return result;
}

} // namespace shankline
