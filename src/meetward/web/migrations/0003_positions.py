import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('web', '0002_own_catalogue'),
    ]

    operations = [
        migrations.CreateModel(
            name='PositionsRow',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('body', models.TextField()),
                ('number', models.PositiveIntegerField(default=1)),
                ('lifter', models.OneToOneField(on_delete=django.db.models.deletion.CASCADE, related_name='positions', to='web.lifterrow')),
            ],
        ),
    ]
