/** A place to start from. */
export interface ListedPlace {
  readonly name: string;
  readonly country: string;
  /** North positive, east positive [deg]. */
  readonly latitude: number;
  readonly longitude: number;
  /** Above sea level [m]. */
  readonly altitude: number;
  /** Name of the time zone. */
  readonly zone: string;
}

/**
 * Places by name: latitude and longitude [deg, rounded to 0.1], altitude [m, rounded to 10 or 50], time zone.
 * From memory, rounded: good enough for the sun, not for finding the way. Type coordinates where it matters.
 */
const rows = `
Amsterdam|NL|52.4|4.9|0|Europe/Amsterdam
Antwerp|BE|51.2|4.4|10|Europe/Brussels
Athens|GR|38.0|23.7|70|Europe/Athens
Barcelona|ES|41.4|2.2|10|Europe/Madrid
Basel|CH|47.6|7.6|260|Europe/Zurich
Belgrade|RS|44.8|20.5|120|Europe/Belgrade
Bergen|NO|60.4|5.3|10|Europe/Oslo
Berlin|DE|52.5|13.4|40|Europe/Berlin
Bern|CH|46.9|7.4|540|Europe/Zurich
Bilbao|ES|43.3|-2.9|20|Europe/Madrid
Birmingham|GB|52.5|-1.9|140|Europe/London
Bordeaux|FR|44.8|-0.6|10|Europe/Paris
Bratislava|SK|48.1|17.1|140|Europe/Bratislava
Brussels|BE|50.8|4.4|20|Europe/Brussels
Bucharest|RO|44.4|26.1|80|Europe/Bucharest
Budapest|HU|47.5|19.0|100|Europe/Budapest
Cologne|DE|50.9|7.0|50|Europe/Berlin
Copenhagen|DK|55.7|12.6|10|Europe/Copenhagen
Dresden|DE|51.1|13.7|110|Europe/Berlin
Dublin|IE|53.3|-6.3|10|Europe/Dublin
Ebro delta|ES|40.7|0.9|0|Europe/Madrid
Edinburgh|GB|55.9|-3.2|50|Europe/London
Florence|IT|43.8|11.3|50|Europe/Rome
Frankfurt|DE|50.1|8.7|110|Europe/Berlin
Geneva|CH|46.2|6.1|380|Europe/Zurich
Glasgow|GB|55.9|-4.3|20|Europe/London
Gothenburg|SE|57.7|12.0|10|Europe/Stockholm
Graz|AT|47.1|15.4|350|Europe/Vienna
Hamburg|DE|53.6|10.0|10|Europe/Berlin
Helsinki|FI|60.2|24.9|10|Europe/Helsinki
Innsbruck|AT|47.3|11.4|570|Europe/Vienna
Istanbul|TR|41.0|29.0|40|Europe/Istanbul
Kiruna|SE|67.9|20.2|530|Europe/Stockholm
Krakow|PL|50.1|19.9|220|Europe/Warsaw
Kyiv|UA|50.5|30.5|180|Europe/Kyiv
Las Palmas|ES|28.1|-15.4|10|Atlantic/Canary
Lisbon|PT|38.7|-9.1|50|Europe/Lisbon
Ljubljana|SI|46.1|14.5|300|Europe/Ljubljana
London|GB|51.5|-0.1|20|Europe/London
Lyon|FR|45.8|4.8|170|Europe/Paris
Madrid|ES|40.4|-3.7|650|Europe/Madrid
Malaga|ES|36.7|-4.4|10|Europe/Madrid
Marseille|FR|43.3|5.4|20|Europe/Paris
Milan|IT|45.5|9.2|120|Europe/Rome
Munich|DE|48.1|11.6|520|Europe/Berlin
Naples|IT|40.9|14.3|20|Europe/Rome
Nicosia|CY|35.2|33.4|150|Asia/Nicosia
Oslo|NO|59.9|10.8|20|Europe/Oslo
Palermo|IT|38.1|13.4|20|Europe/Rome
Paris|FR|48.9|2.4|40|Europe/Paris
Porto|PT|41.2|-8.6|80|Europe/Lisbon
Prague|CZ|50.1|14.4|250|Europe/Prague
Reykjavik|IS|64.1|-21.9|20|Atlantic/Reykjavik
Riga|LV|57.0|24.1|10|Europe/Riga
Rome|IT|41.9|12.5|30|Europe/Rome
Rostock|DE|54.1|12.1|10|Europe/Berlin
Salzburg|AT|47.8|13.0|420|Europe/Vienna
Seville|ES|37.4|-6.0|10|Europe/Madrid
Sofia|BG|42.7|23.3|550|Europe/Sofia
Stockholm|SE|59.3|18.1|20|Europe/Stockholm
Strasbourg|FR|48.6|7.8|140|Europe/Paris
Stuttgart|DE|48.8|9.2|250|Europe/Berlin
Tallinn|EE|59.4|24.8|10|Europe/Tallinn
Thessaloniki|GR|40.6|22.9|10|Europe/Athens
Toulouse|FR|43.6|1.4|150|Europe/Paris
Tromso|NO|69.6|19.0|10|Europe/Oslo
Trondheim|NO|63.4|10.4|10|Europe/Oslo
Turin|IT|45.1|7.7|240|Europe/Rome
Valencia|ES|39.5|-0.4|10|Europe/Madrid
Valletta|MT|35.9|14.5|50|Europe/Malta
Venice|IT|45.4|12.3|0|Europe/Rome
Vienna|AT|48.2|16.4|170|Europe/Vienna
Vilnius|LT|54.7|25.3|110|Europe/Vilnius
Warsaw|PL|52.2|21.0|100|Europe/Warsaw
Zagreb|HR|45.8|16.0|120|Europe/Zagreb
Zurich|CH|47.4|8.5|410|Europe/Zurich
Algiers|DZ|36.8|3.1|50|Africa/Algiers
Cairo|EG|30.0|31.2|20|Africa/Cairo
Casablanca|MA|33.6|-7.6|30|Africa/Casablanca
Dakar|SN|14.7|-17.5|20|Africa/Dakar
Nouakchott|MR|18.1|-16.0|10|Africa/Nouakchott
Tunis|TN|36.8|10.2|10|Africa/Tunis
Abidjan|CI|5.3|-4.0|20|Africa/Abidjan
Accra|GH|5.6|-0.2|60|Africa/Accra
Lagos|NG|6.5|3.4|10|Africa/Lagos
Addis Ababa|ET|9.0|38.7|2350|Africa/Addis_Ababa
Nairobi|KE|-1.3|36.8|1700|Africa/Nairobi
Dar es Salaam|TZ|-6.8|39.3|20|Africa/Dar_es_Salaam
Lusaka|ZM|-15.4|28.3|1280|Africa/Lusaka
Harare|ZW|-17.8|31.0|1490|Africa/Harare
Windhoek|NA|-22.6|17.1|1650|Africa/Windhoek
Gaborone|BW|-24.7|25.9|1000|Africa/Gaborone
Johannesburg|ZA|-26.2|28.0|1750|Africa/Johannesburg
Cape Town|ZA|-33.9|18.4|20|Africa/Johannesburg
Antananarivo|MG|-18.9|47.5|1280|Indian/Antananarivo
Port Louis|MU|-20.2|57.5|50|Indian/Mauritius
Jerusalem|IL|31.8|35.2|750|Asia/Jerusalem
Amman|JO|31.9|35.9|800|Asia/Amman
Riyadh|SA|24.7|46.7|610|Asia/Riyadh
Dubai|AE|25.2|55.3|10|Asia/Dubai
Tehran|IR|35.7|51.4|1200|Asia/Tehran
Tbilisi|GE|41.7|44.8|450|Asia/Tbilisi
Almaty|KZ|43.2|76.9|800|Asia/Almaty
Tashkent|UZ|41.3|69.2|450|Asia/Tashkent
Karachi|PK|24.9|67.0|10|Asia/Karachi
Delhi|IN|28.6|77.2|220|Asia/Kolkata
Mumbai|IN|19.1|72.9|10|Asia/Kolkata
Bengaluru|IN|13.0|77.6|920|Asia/Kolkata
Chennai|IN|13.1|80.3|10|Asia/Kolkata
Kathmandu|NP|27.7|85.3|1350|Asia/Kathmandu
Colombo|LK|6.9|79.9|10|Asia/Colombo
Dhaka|BD|23.8|90.4|10|Asia/Dhaka
Bangkok|TH|13.8|100.5|0|Asia/Bangkok
Hanoi|VN|21.0|105.8|10|Asia/Bangkok
Singapore|SG|1.4|103.8|20|Asia/Singapore
Jakarta|ID|-6.2|106.8|10|Asia/Jakarta
Manila|PH|14.6|121.0|10|Asia/Manila
Hong Kong|CN|22.3|114.2|20|Asia/Hong_Kong
Shanghai|CN|31.2|121.5|0|Asia/Shanghai
Beijing|CN|39.9|116.4|50|Asia/Shanghai
Lhasa|CN|29.7|91.1|3650|Asia/Shanghai
Ulaanbaatar|MN|47.9|106.9|1300|Asia/Ulaanbaatar
Seoul|KR|37.6|127.0|40|Asia/Seoul
Taipei|TW|25.0|121.5|10|Asia/Taipei
Tokyo|JP|35.7|139.7|40|Asia/Tokyo
Sapporo|JP|43.1|141.4|20|Asia/Tokyo
Darwin|AU|-12.5|130.8|30|Australia/Darwin
Perth|AU|-32.0|115.9|20|Australia/Perth
Alice Springs|AU|-23.7|133.9|550|Australia/Darwin
Adelaide|AU|-34.9|138.6|50|Australia/Adelaide
Brisbane|AU|-27.5|153.0|20|Australia/Brisbane
Sydney|AU|-33.9|151.2|20|Australia/Sydney
Melbourne|AU|-37.8|145.0|30|Australia/Melbourne
Hobart|AU|-42.9|147.3|50|Australia/Hobart
Auckland|NZ|-36.8|174.8|20|Pacific/Auckland
Christchurch|NZ|-43.5|172.6|20|Pacific/Auckland
Honolulu|US|21.3|-157.9|10|Pacific/Honolulu
Anchorage|US|61.2|-149.9|40|America/Anchorage
Fairbanks|US|64.8|-147.7|140|America/Anchorage
Vancouver|CA|49.3|-123.1|10|America/Vancouver
Calgary|CA|51.0|-114.1|1050|America/Edmonton
Winnipeg|CA|49.9|-97.1|240|America/Winnipeg
Toronto|CA|43.7|-79.4|100|America/Toronto
Montreal|CA|45.5|-73.6|50|America/Toronto
Seattle|US|47.6|-122.3|50|America/Los_Angeles
San Francisco|US|37.8|-122.4|20|America/Los_Angeles
Los Angeles|US|34.1|-118.2|90|America/Los_Angeles
Phoenix|US|33.4|-112.1|340|America/Phoenix
Denver|US|39.7|-105.0|1600|America/Denver
Albuquerque|US|35.1|-106.6|1600|America/Denver
Dallas|US|32.8|-96.8|130|America/Chicago
Chicago|US|41.9|-87.6|180|America/Chicago
Minneapolis|US|45.0|-93.3|260|America/Chicago
Atlanta|US|33.7|-84.4|320|America/New_York
Miami|US|25.8|-80.2|0|America/New_York
Washington|US|38.9|-77.0|20|America/New_York
New York|US|40.7|-74.0|10|America/New_York
Boston|US|42.4|-71.1|10|America/New_York
Mexico City|MX|19.4|-99.1|2250|America/Mexico_City
Havana|CU|23.1|-82.4|20|America/Havana
San Jose|CR|9.9|-84.1|1150|America/Costa_Rica
Bogota|CO|4.7|-74.1|2600|America/Bogota
Quito|EC|-0.2|-78.5|2850|America/Guayaquil
Lima|PE|-12.0|-77.0|150|America/Lima
La Paz|BO|-16.5|-68.1|3650|America/La_Paz
Manaus|BR|-3.1|-60.0|50|America/Manaus
Recife|BR|-8.1|-34.9|10|America/Recife
Brasilia|BR|-15.8|-47.9|1150|America/Sao_Paulo
Sao Paulo|BR|-23.6|-46.6|760|America/Sao_Paulo
Asuncion|PY|-25.3|-57.6|100|America/Asuncion
Montevideo|UY|-34.9|-56.2|40|America/Montevideo
Buenos Aires|AR|-34.6|-58.4|30|America/Argentina/Buenos_Aires
Santiago|CL|-33.4|-70.7|550|America/Santiago
Antofagasta|CL|-23.7|-70.4|50|America/Santiago
Punta Arenas|CL|-53.2|-70.9|30|America/Punta_Arenas
Azores, Ponta Delgada|PT|37.7|-25.7|50|Atlantic/Azores
Longyearbyen|NO|78.2|15.6|10|Arctic/Longyearbyen
`;

export const listedPlaces: readonly ListedPlace[] = rows
  .trim()
  .split('\n')
  .map((row) => {
    const [name, country, latitude, longitude, altitude, zone] = row.split('|');
    return {
      name: name!,
      country: country!,
      latitude: Number(latitude),
      longitude: Number(longitude),
      altitude: Number(altitude),
      zone: zone!,
    };
  });
