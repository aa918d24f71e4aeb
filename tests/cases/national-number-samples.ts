/**
 * Numbers by scheme, nobody's. Where no publication is named, they were drawn at random and judged
 * by the library stdnum 1.12.0 (npm), of which python-stdnum is the model; in 40,000 drawn numbers
 * of each scheme it agreed but for centuries and days to come, which it reads and we do not.
 */
export const nationalNumberSamples: Readonly<
  Record<string, { readonly right: readonly string[]; readonly wrong: readonly string[] }>
> = {
  // NHS Data Dictionary's example, that of python-stdnum, and one made up.
  "NHS number of England, Wales and the Isle of Man": {
    right: ["943 476 5919", "943-476-5870", "4505577104"],
    wrong: ["9434765871", "943 476 591", "0000000000", "9434 765 919"],
  },
  // From memory alone: weights as in England, first a day and a month.
  "Community Health Index of Scotland": {
    right: ["0101011237", "150647 3385"],
    wrong: ["3213991237", "0101011236"],
  },
  "National Insurance number of the United Kingdom": {
    right: ["LS951760A", "GL 94 94 86 B", "JP862714A"],
    wrong: ["QQ123456C", "GB123456A", "LS951760E"],
  },
  // The first three are examples of python-stdnum.
  "Personal Public Service number of Ireland": {
    right: ["6433435F", "6433435FW", "6433435OA", "1368435KA", "7383805UW"],
    wrong: ["6433435E", "6433435VH"],
  },
  // The first is an example of python-stdnum.
  "burgerservicenummer of the Netherlands": {
    right: ["1112.22.333", "794846087", "361432938", "931667574"],
    wrong: ["1112.52.333", "794846086"],
  },
  "f\u00f8dselsnummer of Norway": {
    right: ["151086 95088", "14010046859", "26074540146"],
    wrong: ["15108695077", "14010046858"],
  },
  "personnummer of Sweden": {
    right: ["880320-0016", "590716-0724", "19780605-8819"],
    wrong: ["880320-0018", "881320-0015"],
  },
  "henkil\u00f6tunnus of Finland": {
    right: ["131052-308T", "121105-5388", "130719-446A"],
    wrong: ["131052-308U"],
  },
  "num\u00e9ro de s\u00e9curit\u00e9 sociale of France": {
    right: ["2 95 10 99 126 111 93", "253072B07300470", "253072A07300443", "164035628657170"],
    wrong: ["295109912611199", "253072C07300443"],
  },
  // From memory alone: the example of the health insurers' specification, and a test card's number.
  "Krankenversichertennummer of Germany": {
    right: ["A123456780", "A 123 456 780", "X110411675"],
    wrong: ["A123456781", "1123456780"],
  },
  "documento nacional de identidad of Spain": {
    right: ["18444672Y", "28298778-S", "87395252J"],
    wrong: ["18444672X", "1844467Y"],
  },
  // From memory alone: the usual example of the form.
  "codice fiscale of Italy": {
    right: ["RSSMRA85T10A562S", "RSSMRA 85T10 A562S"],
    wrong: ["RSSMRA85Z10A562S"],
  },
  "national register number of Belgium": {
    right: ["83021312875", "11.02.16-448.25", "33040851167"],
    wrong: ["83021312874"],
  },
  "PESEL of Poland": {
    right: ["14010362948", "52072723002", "92101207879"],
    wrong: ["14010362947", "14130362948"],
  },
  "AHV number of Switzerland": {
    right: ["756.2584.2750.29", "7568111038198", "7566918627140"],
    wrong: ["756.2584.2750.28", "7552584275029"],
  },
  "social insurance and health card numbers of Canada": {
    right: ["701642449", "149 893 877", "346-356-835"],
    wrong: ["701642448"],
  },
  // From memory alone: the sample card's number.
  "Medicare number of Australia": {
    right: ["2123 45670 1", "2123456701", "2428 77813 2"],
    wrong: ["2123456711", "1123456701"],
  },
  // From memory alone: HISO 10046's example.
  "National Health Index of New Zealand": {
    right: ["ZZZ0016", "ZZZ 0024"],
    wrong: ["ZZZ0017", "OZZ0016"],
  },
  "social security number of the United States": {
    right: ["037-03-6692", "179-74-6058"],
    wrong: ["000-12-3456", "666-12-3456", "037-00-6692", "912-12-3456"],
  },
};
